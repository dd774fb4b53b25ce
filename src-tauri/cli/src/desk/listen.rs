//! Listening on loopback: every connection has its time to ask, and those that ask
//! nothing keep no honest page out, however many they are.

use std::collections::BTreeMap;
use std::convert::Infallible;
use std::future::Future;
use std::net::SocketAddr;
use std::pin::Pin;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::task::{Context, Poll};
use std::time::Duration;

use axum::Router;
use axum::body::{Body, Bytes, HttpBody};
use axum::http::Request;
use hyper::body::{Frame, Incoming, SizeHint};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::{GracefulShutdown, Watcher};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::Notify;
use tower::ServiceExt as _;

use super::guard::Guard;

/// The head of a request must be there within this time, the next one's too.
const HEAD_TIME: Duration = Duration::from_secs(10);
const HEAD_BYTES: usize = 64 * 1024;
/// Connections at once with no request in hand that carries the secret. A browser
/// opens about six.
const MOST_UNKNOWN: usize = 64;

/// Where a request comes from.
#[derive(Clone, Copy)]
pub struct Peer(pub SocketAddr);

/// Answers until `end`, then lets the answers in hand be sent.
pub async fn serve(
    listener: TcpListener,
    app: Router,
    guard: Guard,
    end: impl Future<Output = ()>,
) {
    let graceful = GracefulShutdown::new();
    let unknown = Unknown::default();
    tokio::pin!(end);
    loop {
        let (stream, peer) = tokio::select! {
            accepted = listener.accept() => match accepted {
                Ok(accepted) => accepted,
                Err(_) => {
                    // Out of file handles, as a rule: wait for some to be free.
                    tokio::time::sleep(Duration::from_millis(100)).await;
                    continue;
                }
            },
            () = &mut end => break,
        };
        let _ = stream.set_nodelay(true);
        let place = Arc::new(Place::new(unknown.clone()));
        let turned_out = Arc::clone(&place.turned_out);
        let talk = talk(
            stream,
            peer,
            app.clone(),
            guard.clone(),
            place,
            graceful.watcher(),
        );
        tokio::spawn(async move {
            tokio::select! {
                () = talk => {}
                () = turned_out.notified() => {}
            }
        });
    }
    drop(listener);
    unknown.turn_all_out();
    graceful.shutdown().await;
}

/// Answers what is asked on one connection.
async fn talk(
    stream: TcpStream,
    peer: SocketAddr,
    app: Router,
    guard: Guard,
    place: Arc<Place>,
    watcher: Watcher,
) {
    let service = service_fn(move |request: Request<Incoming>| {
        let in_hand = guard
            .check_secret(request.headers())
            .is_ok()
            .then(|| InHand::new(&place));
        let mut request = request.map(Body::new);
        request.extensions_mut().insert(Peer(peer));
        let answer = app.clone().oneshot(request);
        async move {
            let answer = answer.await?;
            Ok::<_, Infallible>(answer.map(|body| Answer {
                body,
                _in_hand: in_hand,
            }))
        }
    });
    let connection = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(HEAD_TIME)
        .max_buf_size(HEAD_BYTES)
        .serve_connection(TokioIo::new(stream), service);
    // One that breaks off has nobody left to tell.
    let _ = watcher.watch(connection).await;
}

/// Connections with no request in hand that carries the secret, the oldest first.
/// Of too many the oldest ends: whoever opens them by the hundred loses their own.
#[derive(Clone, Default)]
struct Unknown(Arc<Mutex<Line>>);

#[derive(Default)]
struct Line {
    next: u64,
    waiting: BTreeMap<u64, Arc<Notify>>,
}

impl Unknown {
    fn line(&self) -> MutexGuard<'_, Line> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn turn_all_out(&self) {
        for turned_out in self.line().waiting.values() {
            turned_out.notify_one();
        }
    }
}

/// One connection's place in the line.
struct Place {
    unknown: Unknown,
    turned_out: Arc<Notify>,
    number: Mutex<Option<u64>>,
}

impl Place {
    fn new(unknown: Unknown) -> Place {
        let place = Place {
            unknown,
            turned_out: Arc::new(Notify::new()),
            number: Mutex::new(None),
        };
        place.enter();
        place
    }

    fn number(&self) -> MutexGuard<'_, Option<u64>> {
        self.number.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Goes to the end of the line.
    fn enter(&self) {
        let mut line = self.unknown.line();
        let number = line.next;
        line.next += 1;
        line.waiting.insert(number, Arc::clone(&self.turned_out));
        *self.number() = Some(number);
        if line.waiting.len() > MOST_UNKNOWN
            && let Some((_, oldest)) = line.waiting.pop_first()
        {
            oldest.notify_one();
        }
    }

    fn leave(&self) {
        let mut line = self.unknown.line();
        if let Some(number) = self.number().take() {
            line.waiting.remove(&number);
        }
    }
}

impl Drop for Place {
    fn drop(&mut self) {
        self.leave();
    }
}

/// A request that carries the secret is in hand: its connection is out of the line
/// until the answer is sent.
struct InHand(Arc<Place>);

impl InHand {
    fn new(place: &Arc<Place>) -> InHand {
        place.leave();
        InHand(Arc::clone(place))
    }
}

impl Drop for InHand {
    fn drop(&mut self) {
        self.0.enter();
    }
}

/// An answer on its way.
struct Answer {
    body: Body,
    // Given up with the body's end.
    _in_hand: Option<InHand>,
}

impl HttpBody for Answer {
    type Data = Bytes;
    type Error = axum::Error;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, axum::Error>>> {
        Pin::new(&mut self.body).poll_frame(context)
    }

    fn is_end_stream(&self) -> bool {
        self.body.is_end_stream()
    }

    fn size_hint(&self) -> SizeHint {
        self.body.size_hint()
    }
}
