//! Who may call.

use std::fmt::Write as _;
use std::net::SocketAddr;

use axum::http::{HeaderMap, StatusCode, header};
use subtle::ConstantTimeEq;

use crate::failure::Failure;

/// Header that carries the secret.
pub const SECRET: &str = "x-headwalk-secret";

/// What the desk of one start answers to.
#[derive(Clone)]
pub struct Guard {
    secret: String,
    hosts: [String; 3],
}

impl Guard {
    /// A guard with a new secret of 256 random bits.
    pub fn new(address: SocketAddr) -> Result<Guard, Failure> {
        let port = address.port();
        Ok(Guard {
            secret: random_word()?,
            hosts: [
                format!("127.0.0.1:{port}"),
                format!("localhost:{port}"),
                format!("[::1]:{port}"),
            ],
        })
    }

    /// The secret, for the address that is printed.
    pub fn secret(&self) -> &str {
        &self.secret
    }

    /// Whether the request was meant for this desk: a foreign name that
    /// resolves to loopback, or a foreign page, is refused.
    pub fn check_origin(&self, headers: &HeaderMap) -> Result<(), StatusCode> {
        let host = one(headers, header::HOST.as_str()).ok_or(StatusCode::FORBIDDEN)?;
        if !self.hosts.iter().any(|ours| ours == host) {
            return Err(StatusCode::FORBIDDEN);
        }
        if headers.contains_key(header::ORIGIN) {
            let origin = one(headers, header::ORIGIN.as_str());
            if origin != Some(&format!("http://{host}")) {
                return Err(StatusCode::FORBIDDEN);
            }
        }
        Ok(())
    }

    /// Whether the caller knows the secret of this start.
    pub fn check_secret(&self, headers: &HeaderMap) -> Result<(), StatusCode> {
        let given = one(headers, SECRET).unwrap_or_default();
        if bool::from(given.as_bytes().ct_eq(self.secret.as_bytes())) {
            Ok(())
        } else {
            Err(StatusCode::UNAUTHORIZED)
        }
    }
}

/// A word of 256 random bits.
pub fn random_word() -> Result<String, Failure> {
    let mut bytes = [0; 32];
    getrandom::fill(&mut bytes)
        .map_err(|error| Failure::work(format!("the system gives no random numbers: {error}")))?;
    let mut word = String::with_capacity(64);
    for byte in bytes {
        let _ = write!(word, "{byte:02x}");
    }
    Ok(word)
}

/// The value of a header that must stand there exactly once.
fn one<'h>(headers: &'h HeaderMap, name: &str) -> Option<&'h str> {
    let mut values = headers.get_all(name).iter();
    let value = values.next()?;
    if values.next().is_some() {
        return None;
    }
    value.to_str().ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::http::HeaderName;

    fn guard() -> Guard {
        Guard::new("127.0.0.1:4178".parse().unwrap()).unwrap()
    }

    fn headers(pairs: &[(&str, &str)]) -> HeaderMap {
        let mut headers = HeaderMap::new();
        for (name, value) in pairs {
            let name: HeaderName = name.parse().unwrap();
            headers.append(name, value.parse().unwrap());
        }
        headers
    }

    #[test]
    fn only_names_of_loopback_with_this_port_pass() {
        let guard = guard();
        for host in ["127.0.0.1:4178", "localhost:4178", "[::1]:4178"] {
            assert!(guard.check_origin(&headers(&[("host", host)])).is_ok());
        }
        for host in [
            "127.0.0.1",
            "127.0.0.1:80",
            "127.0.0.1:41780",
            "farm.example:4178",
            "localhost.farm.example:4178",
            "",
        ] {
            let refused = guard.check_origin(&headers(&[("host", host)]));
            assert_eq!(refused, Err(StatusCode::FORBIDDEN), "{host}");
        }
        assert!(guard.check_origin(&headers(&[])).is_err());
        let twice = [("host", "127.0.0.1:4178"), ("host", "farm.example")];
        assert!(guard.check_origin(&headers(&twice)).is_err());
    }

    #[test]
    fn an_origin_must_be_the_desk_itself() {
        let guard = guard();
        let with = |origin: &str| {
            guard.check_origin(&headers(&[("host", "localhost:4178"), ("origin", origin)]))
        };
        assert!(with("http://localhost:4178").is_ok());
        for origin in [
            "null",
            "https://localhost:4178",
            "http://127.0.0.1:4178",
            "http://localhost",
            "http://farm.example",
            "",
        ] {
            assert_eq!(with(origin), Err(StatusCode::FORBIDDEN), "{origin}");
        }
    }

    #[test]
    fn each_start_has_its_own_secret_and_nothing_else_passes() {
        let (one, other) = (guard(), guard());
        assert_eq!(one.secret().len(), 64);
        assert_ne!(one.secret(), other.secret());
        assert!(
            one.check_secret(&headers(&[(SECRET, one.secret())]))
                .is_ok()
        );
        for wrong in [other.secret(), "", &one.secret()[..63]] {
            assert!(one.check_secret(&headers(&[(SECRET, wrong)])).is_err());
        }
        assert!(one.check_secret(&headers(&[])).is_err());
    }
}
