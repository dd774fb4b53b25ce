//! Why a command ended without its work done.

use std::fmt;
use std::io;
use std::path::Path;
use std::process::ExitCode;

use notebook::StoreError;
use readers::head_file::HeadFileError;
use service::Problem;

/// One line for standard error, and the exit code.
#[derive(Debug)]
pub struct Failure {
    code: u8,
    message: String,
    closed_pipe: bool,
}

impl Failure {
    /// The work failed.
    pub fn work(message: impl Into<String>) -> Failure {
        Failure {
            code: 1,
            message: message.into(),
            closed_pipe: false,
        }
    }

    /// The call was wrong.
    pub fn call(message: impl Into<String>) -> Failure {
        Failure {
            code: 2,
            ..Failure::work(message)
        }
    }

    /// The same, with the file it is about before it.
    #[must_use]
    pub fn in_file(mut self, path: &Path) -> Failure {
        self.message = format!("{}: {}", path.display(), self.message);
        self
    }

    /// Whether the reader of the output has gone.
    pub fn is_closed_pipe(&self) -> bool {
        self.closed_pipe
    }

    /// For the shell.
    pub fn exit_code(&self) -> ExitCode {
        ExitCode::from(self.code)
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        // One line, whatever a library put into its message.
        formatter.write_str(&self.message.replace(['\n', '\r'], " "))
    }
}

impl From<Problem> for Failure {
    fn from(problem: Problem) -> Failure {
        Failure::work(problem.message)
    }
}

impl From<StoreError> for Failure {
    fn from(error: StoreError) -> Failure {
        Failure::from(Problem::from(error))
    }
}

impl From<HeadFileError> for Failure {
    fn from(error: HeadFileError) -> Failure {
        Failure::work(error.to_string())
    }
}

impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Failure {
        Failure {
            closed_pipe: error.kind() == io::ErrorKind::BrokenPipe,
            ..Failure::work(error.to_string())
        }
    }
}

impl From<serde_json::Error> for Failure {
    fn from(error: serde_json::Error) -> Failure {
        Failure::from(io::Error::from(error))
    }
}
