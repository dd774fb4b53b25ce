//! The desk's addresses: the screens' files, `GET /open/CODE` with which the browser
//! is started, `POST /call`, `POST /files` for requests that bring files,
//! `GET /photo/NAME/SIZE`, `POST /file` for a file of the notebook, and
//! `POST /archive/review` and `/archive/import`.

use std::sync::Arc;
use std::time::{Duration, Instant};

use axum::Router;
use axum::body::{Body, Bytes, HttpBody as _};
use axum::extract::{Extension, Path, Request as HttpRequest, State};
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode, header};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse, Response};
use axum::routing::{any, get, post};
use exchange::service::CrewService;
use http_body_util::BodyExt as _;
use notebook::photo::picture;
use serde::Serialize;
use service::{Answer, Keeper, PhotoSize, Problem, ProblemCode, Reply, Request};

use super::carry;
use super::crew;
use super::guard::Guard;
use super::listen::Peer;
use super::screens::{Screens, media_type};
use super::ticket::{Ticket, is_same_user};

/// Longest request: a head file of a million rows passes.
pub(super) const LONGEST: usize = 256 * 1024 * 1024;
/// Longest request with files: a picture of 50 megapixels passes.
const LONGEST_FILES: usize = picture::LONGEST_FILE + 64 * 1024;
/// Longest wait for the next piece of a request: it comes from this machine.
const PATIENCE: Duration = Duration::from_secs(10);

/// Nothing but the desk's own files, and calls to the desk itself.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; \
    img-src 'self' blob:; font-src 'self'; connect-src 'self'; manifest-src 'self'; \
    base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

pub(super) struct Desk {
    pub(super) keeper: Arc<Keeper>,
    pub(super) crew: Arc<CrewService>,
    screens: Screens,
    guard: Guard,
    ticket: Option<Ticket>,
}

/// The desk as an HTTP service; with the ticket of the browser that it starts.
pub fn app(
    keeper: Arc<Keeper>,
    crew: Arc<CrewService>,
    screens: Screens,
    guard: Guard,
    ticket: Option<Ticket>,
) -> Router {
    let desk = Arc::new(Desk {
        keeper,
        crew,
        screens,
        guard,
        ticket,
    });
    Router::new()
        .route("/open/{code}", get(open))
        .route("/call", post(call))
        .route("/crew", post(crew::call))
        .route("/crew/file", post(crew::file_in).get(crew::file_out))
        .route("/files", post(files))
        .route("/photo/{name}/{size}", get(photo))
        .route("/file", post(carry::file_out))
        .route("/archive/review", post(carry::review))
        .route("/archive/import", post(carry::import))
        .fallback(any(file))
        .layer(middleware::from_fn_with_state(desk.clone(), guarded))
        .with_state(desk)
}

/// Refuses foreign hosts and origins, and tells the browser to keep others out.
async fn guarded(State(desk): State<Arc<Desk>>, request: HttpRequest, next: Next) -> Response {
    let mut response = match desk.guard.check_origin(request.headers()) {
        Ok(()) => next.run(request).await,
        Err(status) => status.into_response(),
    };
    let headers = response.headers_mut();
    for (name, value) in [
        (header::CONTENT_SECURITY_POLICY, POLICY),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "no-referrer"),
        (header::X_FRAME_OPTIONS, "DENY"),
        (header::CACHE_CONTROL, "no-store"),
    ] {
        headers.insert(name, HeaderValue::from_static(value));
    }
    headers.insert(
        "cross-origin-resource-policy",
        HeaderValue::from_static("same-origin"),
    );
    headers.insert(
        "cross-origin-opener-policy",
        HeaderValue::from_static("same-origin"),
    );
    response
}

/// The page that the browser was started with: on to the screens, with the secret.
async fn open(
    State(desk): State<Arc<Desk>>,
    Path(code): Path<String>,
    Extension(Peer(peer)): Extension<Peer>,
    method: Method,
) -> Response {
    const OVER: &str = "This address opens the desk once, within a minute. \
        Open the address that the desk printed.\n\n\
        Esta direcci\u{f3}n abre la aplicaci\u{f3}n una sola vez, dentro de un minuto. \
        Abra la direcci\u{f3}n que aparece en la terminal.\n";
    let redeemed = method == Method::GET
        && desk
            .ticket
            .as_ref()
            .is_some_and(|ticket| is_same_user(peer) && ticket.redeem(&code, Instant::now()));
    if redeemed {
        let screens = format!("/#secret={}", desk.guard.secret());
        (StatusCode::SEE_OTHER, [(header::LOCATION, screens)]).into_response()
    } else {
        let text = [(header::CONTENT_TYPE, media_type("over.txt"))];
        (StatusCode::GONE, text, OVER).into_response()
    }
}

async fn file(State(desk): State<Arc<Desk>>, request: HttpRequest) -> Response {
    if request.method() != Method::GET && request.method() != Method::HEAD {
        return StatusCode::METHOD_NOT_ALLOWED.into_response();
    }
    let address = request.uri().path();
    match desk.screens.file(address) {
        Some(content) => {
            let address = if address == "/" {
                "/index.html"
            } else {
                address
            };
            (
                [(header::CONTENT_TYPE, media_type(address))],
                content.into_owned(),
            )
                .into_response()
        }
        None => StatusCode::NOT_FOUND.into_response(),
    }
}

async fn call(State(desk): State<Arc<Desk>>, headers: HeaderMap, body: Body) -> Response {
    if let Some(refused) = stranger(&desk, &headers) {
        return refused;
    }
    if !is_media(&headers, "application/json") {
        return StatusCode::UNSUPPORTED_MEDIA_TYPE.into_response();
    }
    match arrived(body, LONGEST).await {
        Ok(body) => beside(move || answer(&desk, &body)).await,
        Err(status) => status.into_response(),
    }
}

/// A request that brings files.
async fn files(State(desk): State<Arc<Desk>>, headers: HeaderMap, body: Body) -> Response {
    if let Some(refused) = stranger(&desk, &headers) {
        return refused;
    }
    if !is_media(&headers, "application/octet-stream") {
        return StatusCode::UNSUPPORTED_MEDIA_TYPE.into_response();
    }
    let body = match arrived(body, LONGEST_FILES).await {
        Ok(body) => body,
        Err(status) => return status.into_response(),
    };
    beside(move || {
        let Desk { keeper, crew, .. } = desk.as_ref();
        answered(crew.beside(true, || keeper.take_files(&body)))
    })
    .await
}

/// A photo's bytes.
async fn photo(
    State(desk): State<Arc<Desk>>,
    Path((name, size)): Path<(String, String)>,
    headers: HeaderMap,
) -> Response {
    if let Some(refused) = stranger(&desk, &headers) {
        return refused;
    }
    let size = match size.as_str() {
        "whole" => PhotoSize::Whole,
        "small" => PhotoSize::Small,
        _ => return StatusCode::NOT_FOUND.into_response(),
    };
    beside(move || match desk.keeper.photo(&name, size) {
        Ok(bytes) => ([(header::CONTENT_TYPE, "image/jpeg")], bytes).into_response(),
        Err(trouble) => problem(&trouble),
    })
    .await
}

/// What a page without this start's secret is told.
pub(super) fn stranger(desk: &Desk, headers: &HeaderMap) -> Option<Response> {
    let status = desk.guard.check_secret(headers).err()?;
    let stranger = Problem {
        code: ProblemCode::Unavailable,
        message: "this page does not know the desk: open the address that the desk printed"
            .to_owned(),
    };
    Some(json(status, &stranger))
}

/// The whole of a body.
pub(super) async fn arrived(mut body: Body, longest: usize) -> Result<Bytes, StatusCode> {
    let said = check_length(&body, longest as u64)?;
    let mut whole = Vec::with_capacity(said);
    while let Some(piece) = piece(&mut body).await? {
        if whole.len() + piece.len() > longest {
            return Err(StatusCode::PAYLOAD_TOO_LARGE);
        }
        whole.extend_from_slice(&piece);
    }
    Ok(whole.into())
}

/// Refuses a body that says it is too long, before any of it is read; gives room to
/// begin with, whatever it says.
pub(super) fn check_length(body: &Body, longest: u64) -> Result<usize, StatusCode> {
    const ROOM: u64 = 1 << 20;
    let said = body.size_hint().lower();
    if said > longest {
        return Err(StatusCode::PAYLOAD_TOO_LARGE);
    }
    Ok(usize::try_from(said.min(ROOM)).unwrap_or_default())
}

/// The next piece of a body; none at its end. One that is cut off or that stops
/// coming is an error, so that no half of it is taken for the whole, and nobody
/// waits for ever.
pub(super) async fn piece(body: &mut Body) -> Result<Option<Bytes>, StatusCode> {
    loop {
        let frame = tokio::time::timeout(PATIENCE, body.frame()).await;
        match frame.map_err(|_| StatusCode::REQUEST_TIMEOUT)? {
            None => return Ok(None),
            Some(Err(_)) => return Err(StatusCode::BAD_REQUEST),
            Some(Ok(frame)) => {
                // What is no data is a trailer.
                if let Ok(piece) = frame.into_data() {
                    return Ok(Some(piece));
                }
            }
        }
    }
}

/// The store waits for the disk, so it works beside the threads that listen.
pub(super) async fn beside(work: impl FnOnce() -> Response + Send + 'static) -> Response {
    let answered = tokio::task::spawn_blocking(work).await;
    answered.unwrap_or_else(|_| {
        problem(&Problem {
            code: ProblemCode::Internal,
            message: "the request failed: nothing of it was stored, start the desk again"
                .to_owned(),
        })
    })
}

fn answer(desk: &Desk, body: &Bytes) -> Response {
    let request: Request = match serde_json::from_slice(body) {
        Ok(request) => request,
        Err(error) => {
            return problem(&Problem::bad_input(format!(
                "the request cannot be read: {error}"
            )));
        }
    };
    let tap = request.is_tap();
    answered(desk.crew.beside(tap, || desk.keeper.answer(request)))
}

fn answered(reply: Result<Reply<Answer>, Problem>) -> Response {
    match reply {
        Ok(reply) => json(StatusCode::OK, &reply),
        Err(trouble) => problem(&trouble),
    }
}

pub(super) fn is_media(headers: &HeaderMap, wanted: &str) -> bool {
    headers
        .get(header::CONTENT_TYPE)
        .and_then(|value| value.to_str().ok())
        .and_then(|value| value.split(';').next())
        .is_some_and(|media| media.trim().eq_ignore_ascii_case(wanted))
}

pub(super) fn problem(problem: &Problem) -> Response {
    let status = match problem.code {
        ProblemCode::BadInput => StatusCode::BAD_REQUEST,
        ProblemCode::NotFound => StatusCode::NOT_FOUND,
        ProblemCode::Conflict | ProblemCode::Stopped => StatusCode::CONFLICT,
        ProblemCode::DiskFull => StatusCode::INSUFFICIENT_STORAGE,
        ProblemCode::Unavailable | ProblemCode::ReadOnly => StatusCode::SERVICE_UNAVAILABLE,
        ProblemCode::FromNewerApp
        | ProblemCode::Damaged
        | ProblemCode::Incomplete
        | ProblemCode::Internal => StatusCode::INTERNAL_SERVER_ERROR,
    };
    json(status, problem)
}

pub(super) fn json(status: StatusCode, value: &impl Serialize) -> Response {
    match serde_json::to_vec(value) {
        Ok(text) => (status, [(header::CONTENT_TYPE, "application/json")], text).into_response(),
        Err(_) => StatusCode::INTERNAL_SERVER_ERROR.into_response(),
    }
}
