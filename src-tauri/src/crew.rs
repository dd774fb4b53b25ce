//! The crew's commands. They only pass on; off the main thread, since the hub may
//! take its time.

use std::path::Path;

use chrono::NaiveDate;
use exchange::service::{CrewProblem, CrewProblemCode, CrewReply, CrewRequest, CrewService};
use service::{Problem, Reply};
use tauri::State;
use tauri::ipc::{InvokeBody, Request, Response};

/// The crew of the notebook that the window holds; or why there is none.
pub struct Crew(Result<CrewService, CrewProblem>);

impl Crew {
    /// Of the notebook at `path`.
    pub fn open(path: &Path, today: Option<NaiveDate>) -> Crew {
        let started = CrewService::open(path, today);
        Crew(started.map_err(|error| failed(format!("the exchange cannot be started: {error}"))))
    }

    /// Of no notebook.
    pub fn without(message: String) -> Crew {
        Crew(Err(failed(message)))
    }

    /// See [`CrewService::beside`].
    pub fn beside<A>(
        &self,
        tap: bool,
        work: impl FnOnce() -> Result<Reply<A>, Problem>,
    ) -> Result<Reply<A>, Problem> {
        match &self.0 {
            Ok(crew) => crew.beside(tap, work),
            Err(_) => work(),
        }
    }

    /// There may be something new to give.
    pub fn notebook_changed(&self) {
        if let Ok(crew) = &self.0 {
            crew.notebook_changed();
        }
    }

    /// Ends the exchange.
    pub fn close(&self) {
        if let Ok(crew) = &self.0 {
            crew.close();
        }
    }

    fn service(&self) -> Result<&CrewService, CrewProblem> {
        self.0.as_ref().map_err(Clone::clone)
    }
}

fn failed(message: String) -> CrewProblem {
    CrewProblem {
        code: CrewProblemCode::CrewFailed,
        message,
    }
}

/// Passes a request of the screens to the crew.
#[tauri::command(async)]
pub fn crew(request: CrewRequest, held: State<'_, Crew>) -> Result<CrewReply, CrewProblem> {
    held.service()?.call(request)
}

/// Takes in a file of another device, whose bytes are the call's body.
#[tauri::command(async)]
pub fn crew_file_in(request: Request<'_>, held: State<'_, Crew>) -> Result<CrewReply, CrewProblem> {
    match request.body() {
        InvokeBody::Raw(bytes) => held.service()?.read_file(&mut bytes.as_slice()),
        InvokeBody::Json(_) => Err(CrewProblem {
            code: CrewProblemCode::BadExchangeFile,
            message: "the file came as text: choose it again".to_owned(),
        }),
    }
}

/// Gives everything for another device, as bytes.
#[tauri::command(async)]
pub fn crew_file_out(held: State<'_, Crew>) -> Result<Response, CrewProblem> {
    let mut bytes = Vec::new();
    held.service()?.write_file(&mut bytes)?;
    Ok(Response::new(bytes))
}
