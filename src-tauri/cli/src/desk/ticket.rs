//! The address that is handed to the program which starts the browser.
//!
//! Everybody on a machine can read the arguments of its programs, so the secret of
//! this start must not stand in them. What stands there is a code: it is exchanged
//! for the secret once, within a minute, and on Linux only by a program of the same
//! user.

use std::net::SocketAddr;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

use subtle::ConstantTimeEq as _;

use super::guard::random_word;
use crate::failure::Failure;

/// Time within which the browser has to come.
const GOOD_FOR: Duration = Duration::from_secs(60);

/// A code that is exchanged for the secret once.
pub struct Ticket {
    code: String,
    /// None once it was used.
    until: Mutex<Option<Instant>>,
}

impl Ticket {
    /// A new code, good from now on.
    pub fn issue(now: Instant) -> Result<Ticket, Failure> {
        Ok(Ticket {
            code: random_word()?,
            until: Mutex::new(Some(now + GOOD_FOR)),
        })
    }

    /// The code, for the address that the browser is started with.
    pub fn code(&self) -> &str {
        &self.code
    }

    /// Whether this is the code, in time and for the first time.
    pub fn redeem(&self, code: &str, now: Instant) -> bool {
        if !bool::from(code.as_bytes().ct_eq(self.code.as_bytes())) {
            return false;
        }
        let until = self
            .until
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .take();
        until.is_some_and(|until| now <= until)
    }
}

/// Whether the program at the other end of a connection runs for the user of this
/// one, or for the administrator, who can read everything anyway. Where the system
/// does not say, it is trusted.
pub fn is_same_user(peer: SocketAddr) -> bool {
    match (own_user(), std::fs::read_to_string("/proc/net/tcp")) {
        (Some(own), Ok(table)) => {
            owner(&table, peer).is_some_and(|owner| owner == own || owner == 0)
        }
        _ => true,
    }
}

#[cfg(target_os = "linux")]
fn own_user() -> Option<u32> {
    use std::os::unix::fs::MetadataExt as _;
    Some(std::fs::metadata("/proc/self").ok()?.uid())
}

#[cfg(not(target_os = "linux"))]
fn own_user() -> Option<u32> {
    None
}

/// Id of the user whose socket has this address, by the system's table of sockets:
/// in each row the second word is the socket's own address, the eighth its user.
fn owner(table: &str, address: SocketAddr) -> Option<u32> {
    let SocketAddr::V4(address) = address else {
        return None;
    };
    let ip = u32::from_ne_bytes(address.ip().octets());
    let wanted = format!("{ip:08X}:{:04X}", address.port());
    table.lines().find_map(|row| {
        let mut words = row.split_whitespace();
        (words.nth(1)? == wanted)
            .then(|| words.nth(5)?.parse().ok())
            .flatten()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_is_good_once_and_for_a_minute() {
        let now = Instant::now();
        let ticket = Ticket::issue(now).unwrap();
        assert_eq!(ticket.code().len(), 64);
        // A wrong one does not use it up.
        assert!(!ticket.redeem("", now));
        assert!(!ticket.redeem(&"0".repeat(64), now));
        let code = ticket.code().to_owned();
        assert!(ticket.redeem(&code, now + Duration::from_secs(60)));
        assert!(!ticket.redeem(&code, now));

        let late = Ticket::issue(now).unwrap();
        assert!(!late.redeem(late.code(), now + Duration::from_secs(61)));
    }

    #[cfg(target_endian = "little")]
    #[test]
    fn the_user_of_a_socket_is_read_from_the_systems_table() {
        let table = "  sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid\n   \
            0: 0100007F:1052 0100007F:9C40 01 00000000:00000000 00:00000000 00000000   501 0 1\n   \
            1: 0100007F:9C40 0100007F:1052 01 00000000:00000000 00:00000000 00000000  1000 0 2\n";
        let at = |text: &str| text.parse().unwrap();
        assert_eq!(owner(table, at("127.0.0.1:40000")), Some(1000));
        assert_eq!(owner(table, at("127.0.0.1:4178")), Some(501));
        assert_eq!(owner(table, at("127.0.0.1:4179")), None);
        assert_eq!(owner("", at("127.0.0.1:40000")), None);
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn a_connection_of_this_program_is_one_of_the_same_user() {
        let listener = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
        let stream = std::net::TcpStream::connect(listener.local_addr().unwrap()).unwrap();
        assert!(is_same_user(stream.local_addr().unwrap()));
        // An address at which nobody is.
        assert!(!is_same_user("127.0.0.9:9".parse().unwrap()));
    }
}
