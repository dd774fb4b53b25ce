//! The app's window, on a phone or a desktop.
//!
//! It holds no logic: the screens send requests, the notebook answers them.

#![cfg_attr(mobile, allow(unsafe_code))] // The entry point exports a symbol.

mod crew;
mod held;

use std::io::Cursor;

use service::{Answer, ArchiveIn, FileOut, Keep, Keeper, PhotoSize, Problem, Reply, Request};
use tauri::ipc::{InvokeBody, Request as Message, Response};
use tauri::{AppHandle, Manager as _, RunEvent, State};

use crew::Crew;
use held::SavedFile;

/// Passes a request of the screens to the notebook. Off the main thread, so
/// that the window never waits for the disk.
#[tauri::command(async)]
fn call(
    request: Request,
    keeper: State<'_, Keeper>,
    crew: State<'_, Crew>,
) -> Result<Reply<Answer>, Problem> {
    let tap = request.is_tap();
    crew.beside(tap, || keeper.answer(request))
}

/// Passes on a request that brings files, as bytes and not as text.
#[tauri::command(async)]
fn take_files(
    message: Message<'_>,
    keeper: State<'_, Keeper>,
    crew: State<'_, Crew>,
) -> Result<Reply<Answer>, Problem> {
    match message.body() {
        InvokeBody::Raw(bytes) => crew.beside(true, || keeper.take_files(bytes)),
        InvokeBody::Json(_) => Err(Problem::bad_input("files must come as bytes")),
    }
}

/// The bytes of a photo.
#[tauri::command(async)]
fn photo(name: String, size: PhotoSize, keeper: State<'_, Keeper>) -> Result<Response, Problem> {
    keeper.photo(&name, size).map(Response::new)
}

/// Makes a file of the notebook in the folder for downloads, or where the system
/// has none, for documents.
#[tauri::command(async)]
fn file_out(
    what: FileOut,
    app: AppHandle,
    keeper: State<'_, Keeper>,
) -> Result<SavedFile, Problem> {
    let folder = app
        .path()
        .download_dir()
        .or_else(|_| app.path().document_dir())
        .map_err(|error| Problem::bad_input(format!("there is no folder for files: {error}")))?;
    held::file_out(&keeper, &what, &folder)
}

/// Says what an archive would bring, or brings it in where `keep` is true.
#[tauri::command(async)]
fn archive_in(
    message: Message<'_>,
    keeper: State<'_, Keeper>,
    crew: State<'_, Crew>,
) -> Result<ArchiveIn, Problem> {
    let keep = match message.headers().get("keep").map(|keep| keep.as_bytes()) {
        Some(b"yes") => Keep::GoodRows,
        _ => Keep::Nothing,
    };
    match message.body() {
        InvokeBody::Raw(bytes) => {
            let done = keeper.archive_in(Cursor::new(bytes), keep, &mut |_| true)?;
            crew.notebook_changed();
            Ok(done)
        }
        InvokeBody::Json(_) => Err(Problem::bad_input("files must come as bytes")),
    }
}

/// Opens the window and returns when it is closed.
///
/// # Errors
/// When the window cannot be made.
pub fn run() -> tauri::Result<()> {
    tauri::Builder::default()
        .setup(|app| {
            let folder = app.path().app_data_dir()?;
            let (keeper, crew) = held::notebook(&folder);
            app.manage(keeper);
            app.manage(crew);
            Ok(())
        })
        .invoke_handler(tauri::generate_handler![
            call,
            take_files,
            photo,
            file_out,
            archive_in,
            crew::crew,
            crew::crew_file_in,
            crew::crew_file_out
        ])
        .build(tauri::generate_context!())?
        .run(|app, event| {
            // The process ends without dropping what the app holds.
            if let RunEvent::Exit = event {
                app.state::<Crew>().close();
                let _ = app.state::<Keeper>().close();
            }
        });
    Ok(())
}

/// Where a phone enters.
#[cfg(mobile)]
#[tauri::mobile_entry_point]
fn enter() {
    if let Err(error) = run() {
        eprintln!("the window cannot be opened: {error}");
    }
}
