//! Listening: TLS or loopback, bounded connections, bounded waiting, and an end
//! that lets running answers finish.

use crate::answer::Hub;
use crate::connections::{Connections, Place};
use crate::door::{Door, DoorRules, Peer};
use crate::metrics::Metrics;
use crate::network::Network;
use axum::Router;
use axum::extract::{Request, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;
use hyper_util::service::TowerToHyperService;
use rustls::ServerConfig;
use rustls::pki_types::pem::PemObject;
use rustls::pki_types::{CertificateDer, PrivateKeyDer};
use std::future::Future;
use std::net::SocketAddr;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;
use thiserror::Error;
use tokio::io::{AsyncRead, AsyncWrite};
use tokio::net::{TcpListener, TcpStream};
use tokio_rustls::TlsAcceptor;
use tower::ServiceExt;

/// A TLS handshake must be done within this time.
const HANDSHAKE_TIME: Duration = Duration::from_secs(10);
const HEAD_BYTES: usize = 16 * 1024;
const HEADERS: usize = 40;
/// Running answers get this long to finish at the end.
const LAST_ANSWERS: Duration = Duration::from_secs(20);
const UPKEEP: Duration = Duration::from_secs(60);

/// How a hub listens.
#[derive(Debug, Clone)]
pub struct Listening {
    /// Address and port that it listens on.
    pub at: SocketAddr,
    /// Certificate chain and private key, PEM.
    pub tls: Option<(PathBuf, PathBuf)>,
    /// Where the metrics are; loopback only.
    pub metrics_at: Option<SocketAddr>,
    /// How the door is kept.
    pub rules: DoorRules,
}

/// Why a hub does not listen.
#[derive(Debug, Error)]
pub enum ServeFault {
    /// Tokens must not cross a network in the clear.
    #[error(
        "{0} is reached from other machines: give --certificate and --key, \
         or --behind-proxy when a proxy adds TLS"
    )]
    Plaintext(SocketAddr),
    /// Metrics are for this machine.
    #[error("metrics are served on this machine only: {0} is not a loopback address")]
    MetricsInTheOpen(SocketAddr),
    /// The certificate or key cannot be used.
    #[error("{0}: {1}")]
    Certificate(PathBuf, String),
    /// The address cannot be used.
    #[error("{0}: {1}")]
    Address(SocketAddr, std::io::Error),
}

/// A hub that listens, and is not yet answering.
pub struct Bound {
    hub: Hub,
    rules: DoorRules,
    metrics: Metrics,
    listener: TcpListener,
    tls: Option<TlsAcceptor>,
    metrics_listener: Option<TcpListener>,
}

/// Takes the address.
///
/// # Errors
/// See [`ServeFault`].
pub async fn bind(hub: Hub, listening: Listening) -> Result<Bound, ServeFault> {
    let Listening {
        at,
        tls,
        metrics_at,
        rules,
    } = listening;
    if tls.is_none() && !rules.behind_proxy && !at.ip().is_loopback() {
        return Err(ServeFault::Plaintext(at));
    }
    if let Some(metrics_at) = metrics_at.filter(|at| !at.ip().is_loopback()) {
        return Err(ServeFault::MetricsInTheOpen(metrics_at));
    }
    let tls = tls
        .map(|(certificate, key)| acceptor(&certificate, &key))
        .transpose()?;
    let metrics_listener = match metrics_at {
        Some(at) => Some(listen(at).await?),
        None => None,
    };
    Ok(Bound {
        hub,
        rules,
        metrics: Metrics::default(),
        listener: listen(at).await?,
        tls,
        metrics_listener,
    })
}

async fn listen(at: SocketAddr) -> Result<TcpListener, ServeFault> {
    TcpListener::bind(at)
        .await
        .map_err(|error| ServeFault::Address(at, error))
}

fn acceptor(certificate: &Path, key: &Path) -> Result<TlsAcceptor, ServeFault> {
    let fault = |path: &Path, why: String| ServeFault::Certificate(path.to_owned(), why);
    let chain = CertificateDer::pem_file_iter(certificate)
        .and_then(Iterator::collect::<Result<Vec<_>, _>>)
        .map_err(|error| fault(certificate, error.to_string()))?;
    let secret =
        PrivateKeyDer::from_pem_file(key).map_err(|error| fault(key, error.to_string()))?;
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    let config = ServerConfig::builder_with_provider(provider)
        .with_safe_default_protocol_versions()
        .and_then(|builder| {
            builder
                .with_no_client_auth()
                .with_single_cert(chain, secret)
        })
        .map_err(|error| fault(certificate, error.to_string()))?;
    Ok(TlsAcceptor::from(Arc::new(config)))
}

impl Bound {
    /// The address taken, with the port the system chose where 0 was asked for.
    ///
    /// # Errors
    /// When the system does not say.
    pub fn address(&self) -> std::io::Result<SocketAddr> {
        self.listener.local_addr()
    }

    /// Where the metrics are.
    ///
    /// # Errors
    /// When the system does not say.
    pub fn metrics_address(&self) -> std::io::Result<Option<SocketAddr>> {
        self.metrics_listener
            .as_ref()
            .map(TcpListener::local_addr)
            .transpose()
    }

    /// Answers until `end`, then lets running answers finish.
    pub async fn serve(self, end: impl Future<Output = ()>) {
        let (head_time, behind_proxy) = (self.rules.head_time, self.rules.behind_proxy);
        let connections = Connections::new(self.rules.connections, !behind_proxy);
        let metrics = self.metrics.clone();
        let door = Door::new(self.hub.clone(), self.rules, self.metrics.clone());
        let upkeep = tokio::spawn(keep_up(door.clone()));
        let metrics_server = self.metrics_listener.map(|listener| {
            let router = Router::new()
                .route("/metrics", get(metrics_text))
                .with_state((self.hub.clone(), self.metrics));
            tokio::spawn(async move { axum::serve(listener, router).await })
        });
        let router = door.router();
        let graceful = GracefulShutdown::new();
        tokio::pin!(end);
        loop {
            let (stream, peer) = tokio::select! {
                accepted = self.listener.accept() => match accepted {
                    Ok(accepted) => accepted,
                    Err(error) => {
                        // Out of file handles, as a rule: make room, and wait for it.
                        tracing::warn!(%error, "a connection was not accepted");
                        connections.end_one();
                        tokio::time::sleep(Duration::from_millis(100)).await;
                        continue;
                    }
                },
                () = &mut end => break,
            };
            let Some((place, made_room)) = connections.enter(Network::from(peer.ip())) else {
                metrics.refused("connection");
                continue;
            };
            if made_room {
                metrics.refused("silent connection");
            }
            let _ = stream.set_nodelay(true);
            let (router, tls, watcher) = (router.clone(), self.tls.clone(), graceful.watcher());
            tokio::spawn(async move {
                let conversation = async {
                    match tls {
                        None => talk(stream, peer, &place, router, head_time, watcher).await,
                        Some(tls) => {
                            if let Some(stream) = shake_hands(&tls, stream).await {
                                talk(stream, peer, &place, router, head_time, watcher).await;
                            }
                        }
                    }
                };
                tokio::select! {
                    () = conversation => {}
                    () = place.ended() => {}
                }
            });
        }
        drop(self.listener);
        if tokio::time::timeout(LAST_ANSWERS, graceful.shutdown())
            .await
            .is_err()
        {
            tracing::warn!("some connections did not end in time");
        }
        upkeep.abort();
        if let Some(server) = metrics_server {
            server.abort();
        }
    }
}

async fn keep_up(door: Door) {
    loop {
        tokio::time::sleep(UPKEEP).await;
        door.forget_quiet();
    }
}

async fn shake_hands(
    tls: &TlsAcceptor,
    stream: TcpStream,
) -> Option<tokio_rustls::server::TlsStream<TcpStream>> {
    match tokio::time::timeout(HANDSHAKE_TIME, tls.accept(stream)).await {
        Ok(Ok(stream)) => Some(stream),
        Ok(Err(error)) => {
            tracing::debug!(%error, "no TLS handshake");
            None
        }
        Err(_) => None,
    }
}

async fn talk<S>(
    stream: S,
    peer: SocketAddr,
    place: &Place,
    router: Router,
    head_time: Duration,
    watcher: hyper_util::server::graceful::Watcher,
) where
    S: AsyncRead + AsyncWrite + Unpin + Send + 'static,
{
    let standing = place.standing();
    let service = router.map_request(move |request: hyper::Request<hyper::body::Incoming>| {
        let mut request: Request = request.map(axum::body::Body::new);
        request.extensions_mut().insert(Peer(peer.ip()));
        request.extensions_mut().insert(Arc::clone(&standing));
        request
    });
    let connection = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(head_time)
        .max_buf_size(HEAD_BYTES)
        .max_headers(HEADERS)
        .serve_connection(TokioIo::new(stream), TowerToHyperService::new(service));
    if let Err(error) = watcher.watch(connection).await {
        tracing::debug!(%error, "a connection ended early");
    }
}

async fn metrics_text(State((hub, metrics)): State<(Hub, Metrics)>) -> Response {
    match metrics.text(&*hub.store).await {
        Ok(text) => (
            [(
                "content-type",
                "application/openmetrics-text; version=1.0.0; charset=utf-8",
            )],
            text,
        )
            .into_response(),
        Err(_) => StatusCode::SERVICE_UNAVAILABLE.into_response(),
    }
}
