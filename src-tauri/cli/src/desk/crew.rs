//! The crew's addresses at the desk: `POST /crew`, and a file for or from another
//! phone at `/crew/file`, as bytes.

use std::sync::Arc;

use axum::body::{Body, Bytes};
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use exchange::service::{CrewProblem, CrewProblemCode, CrewReply, CrewRequest};
use service::Problem;

use super::server::{Desk, LONGEST, arrived, beside, is_media, json, problem, stranger};

const BYTES: &str = "application/octet-stream";

pub(super) async fn call(
    State(desk): State<Arc<Desk>>,
    headers: HeaderMap,
    body: Body,
) -> Response {
    match admitted(&desk, &headers, body, "application/json").await {
        Ok(body) => beside(move || answer(&desk, &body)).await,
        Err(refused) => refused,
    }
}

/// A file of another phone.
pub(super) async fn file_in(
    State(desk): State<Arc<Desk>>,
    headers: HeaderMap,
    body: Body,
) -> Response {
    match admitted(&desk, &headers, body, BYTES).await {
        Ok(body) => beside(move || reply(desk.crew.read_file(&mut body.as_ref()))).await,
        Err(refused) => refused,
    }
}

/// Everything for another phone.
pub(super) async fn file_out(State(desk): State<Arc<Desk>>, headers: HeaderMap) -> Response {
    if let Some(refused) = stranger(&desk, &headers) {
        return refused;
    }
    beside(move || {
        let mut bytes = Vec::new();
        match desk.crew.write_file(&mut bytes) {
            Ok(_) => ([(header::CONTENT_TYPE, BYTES)], bytes).into_response(),
            Err(trouble) => refusal(&trouble),
        }
    })
    .await
}

/// The body of a caller that knows the desk.
async fn admitted(
    desk: &Desk,
    headers: &HeaderMap,
    body: Body,
    media: &str,
) -> Result<Bytes, Response> {
    if let Some(refused) = stranger(desk, headers) {
        return Err(refused);
    }
    if !is_media(headers, media) {
        return Err(StatusCode::UNSUPPORTED_MEDIA_TYPE.into_response());
    }
    arrived(body, LONGEST)
        .await
        .map_err(IntoResponse::into_response)
}

fn answer(desk: &Desk, body: &Bytes) -> Response {
    match serde_json::from_slice::<CrewRequest>(body) {
        Ok(request) => reply(desk.crew.call(request)),
        Err(error) => problem(&Problem::bad_input(format!(
            "the request cannot be read: {error}"
        ))),
    }
}

fn reply(outcome: Result<CrewReply, CrewProblem>) -> Response {
    match outcome {
        Ok(reply) => json(StatusCode::OK, &reply),
        Err(trouble) => refusal(&trouble),
    }
}

fn refusal(problem: &CrewProblem) -> Response {
    use CrewProblemCode as Code;
    let status = match problem.code {
        Code::BadInvitation | Code::BadExchangeFile | Code::OtherCrew => StatusCode::BAD_REQUEST,
        Code::NotAllowed => StatusCode::FORBIDDEN,
        Code::NotInCrew => StatusCode::NOT_FOUND,
        Code::NoSignal | Code::HubBusy => StatusCode::SERVICE_UNAVAILABLE,
        Code::CrewFailed => StatusCode::INTERNAL_SERVER_ERROR,
        Code::NotTrusted
        | Code::NotLetIn
        | Code::Removed
        | Code::HubFull
        | Code::HubVersion
        | Code::LastOwner
        | Code::NoCrew
        | Code::InCrew
        | Code::NoToken
        | Code::Parted
        | Code::Stopped => StatusCode::CONFLICT,
    };
    json(status, problem)
}
