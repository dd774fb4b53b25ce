//! Files out of the notebook to the browser, and an archive from it: carried
//! through a file on this machine, so that their size does not matter.

use std::fs::File;
use std::io::{BufReader, Read as _, Seek as _, SeekFrom, Write as _};
use std::sync::Arc;

use axum::body::{Body, Bytes};
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use futures_util::stream;
use service::{FileOut, Keep, Problem, ProblemCode};

use super::server::{
    Desk, arrived, beside, check_length, is_media, json, piece, problem, stranger,
};

/// Longest description of a file that is asked for.
const LONGEST_ASK: usize = 64 * 1024;
/// Longest archive taken from a browser.
const LONGEST_ARCHIVE: u64 = 4 << 30;
/// Bytes sent at once.
const PIECE: usize = 256 * 1024;

/// Makes a file and sends it.
pub async fn file_out(State(desk): State<Arc<Desk>>, headers: HeaderMap, body: Body) -> Response {
    if let Some(refused) = stranger(&desk, &headers) {
        return refused;
    }
    if !is_media(&headers, "application/json") {
        return StatusCode::UNSUPPORTED_MEDIA_TYPE.into_response();
    }
    let body = match arrived(body, LONGEST_ASK).await {
        Ok(body) => body,
        Err(status) => return status.into_response(),
    };
    beside(move || match made(&desk, &body) {
        Ok(response) => response,
        Err(trouble) => problem(&trouble),
    })
    .await
}

fn made(desk: &Desk, ask: &Bytes) -> Result<Response, Problem> {
    let what: FileOut = serde_json::from_slice(ask)
        .map_err(|error| Problem::bad_input(format!("the request cannot be read: {error}")))?;
    let mut file = tempfile::tempfile().map_err(no_room)?;
    let made = desk.keeper.file_out(&what, &mut file)?;
    file.seek(SeekFrom::Start(0)).map_err(no_room)?;
    let length = file.metadata().map_err(no_room)?.len();
    let name = format!("attachment; filename=\"{}\"", made.name);
    let headers = [
        (header::CONTENT_TYPE, made.media_type),
        (header::CONTENT_LENGTH, length.to_string()),
        (header::CONTENT_DISPOSITION, name),
    ];
    let pieces = stream::try_unfold(file, |mut file| async move {
        let read = tokio::task::spawn_blocking(move || -> std::io::Result<(Vec<u8>, File)> {
            let mut piece = vec![0; PIECE];
            let got = file.read(&mut piece)?;
            piece.truncate(got);
            Ok((piece, file))
        });
        let (piece, file) = read.await.map_err(std::io::Error::other)??;
        Ok::<_, std::io::Error>((!piece.is_empty()).then(|| (Bytes::from(piece), file)))
    });
    Ok((headers, Body::from_stream(pieces)).into_response())
}

/// Says what an archive would bring.
pub async fn review(desk: State<Arc<Desk>>, headers: HeaderMap, body: Body) -> Response {
    archive(desk, &headers, body, Keep::Nothing).await
}

/// Brings an archive in.
pub async fn import(desk: State<Arc<Desk>>, headers: HeaderMap, body: Body) -> Response {
    archive(desk, &headers, body, Keep::GoodRows).await
}

async fn archive(
    State(desk): State<Arc<Desk>>,
    headers: &HeaderMap,
    body: Body,
    keep: Keep,
) -> Response {
    if let Some(refused) = stranger(&desk, headers) {
        return refused;
    }
    if !is_media(headers, "application/octet-stream") {
        return StatusCode::UNSUPPORTED_MEDIA_TYPE.into_response();
    }
    let file = match laid_down(body).await {
        Ok(file) => file,
        Err(refused) => return refused,
    };
    beside(move || {
        match desk
            .keeper
            .archive_in(BufReader::new(file), keep, &mut |_| true)
        {
            Ok(done) => json(StatusCode::OK, &done),
            Err(trouble) => problem(&trouble),
        }
    })
    .await
}

/// A zip file is read from its end, so it is laid into a file first. Each piece
/// goes to the system's buffers, which takes no longer than its arrival.
async fn laid_down(mut body: Body) -> Result<File, Response> {
    let failed = |error| problem(&no_room(error));
    check_length(&body, LONGEST_ARCHIVE).map_err(IntoResponse::into_response)?;
    let mut file = tempfile::tempfile().map_err(failed)?;
    let mut length: u64 = 0;
    while let Some(piece) = piece(&mut body)
        .await
        .map_err(IntoResponse::into_response)?
    {
        length += piece.len() as u64;
        if length > LONGEST_ARCHIVE {
            return Err(StatusCode::PAYLOAD_TOO_LARGE.into_response());
        }
        file.write_all(&piece).map_err(failed)?;
    }
    file.seek(SeekFrom::Start(0)).map_err(failed)?;
    Ok(file)
}

#[allow(clippy::needless_pass_by_value)] // the form that map_err calls
fn no_room(error: std::io::Error) -> Problem {
    let code = if error.kind() == std::io::ErrorKind::StorageFull {
        ProblemCode::DiskFull
    } else {
        ProblemCode::Unavailable
    };
    Problem {
        code,
        message: format!("the folder for temporary files cannot be used: {error}"),
    }
}
