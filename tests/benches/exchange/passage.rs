//! Bytes that cross between a phone and a hub, as frames and on the wire itself.

use std::io::{Read, Write};
use std::net::{Shutdown, SocketAddr, TcpListener, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread;

/// Passes connections on to a hub and counts every byte of them, both ways: request
/// lines, headers and bodies.
pub struct Passage {
    pub at: SocketAddr,
    bytes: Arc<AtomicU64>,
}

impl Passage {
    pub fn to(hub: SocketAddr) -> Self {
        let listener = TcpListener::bind(("127.0.0.1", 0)).unwrap();
        let at = listener.local_addr().unwrap();
        let bytes = Arc::new(AtomicU64::new(0));
        let counted = Arc::clone(&bytes);
        // It ends with the process.
        thread::spawn(move || {
            for phone in listener.incoming() {
                let phone = phone.unwrap();
                let hub = TcpStream::connect(hub).unwrap();
                let (back, forth) = (phone.try_clone().unwrap(), hub.try_clone().unwrap());
                for (from, to) in [(phone, forth), (hub, back)] {
                    let counted = Arc::clone(&counted);
                    thread::spawn(move || carry(from, to, &counted));
                }
            }
        });
        Self { at, bytes }
    }

    pub fn bytes(&self) -> u64 {
        self.bytes.load(Ordering::SeqCst)
    }
}

fn carry(mut from: TcpStream, mut to: TcpStream, counted: &AtomicU64) {
    let mut piece = [0; 16 * 1024];
    while let Ok(length @ 1..) = from.read(&mut piece) {
        counted.fetch_add(length as u64, Ordering::SeqCst);
        if to.write_all(&piece[..length]).is_err() {
            break;
        }
    }
    let _ = to.shutdown(Shutdown::Write);
}
