//! A thread that owns one connection. The writing one commits many calls at once:
//! each call runs in its own savepoint, and is answered after the commit.

use crate::store::{StoreFault, Stored};
use rusqlite::Connection;
use std::thread::JoinHandle;
use tokio::sync::{mpsc, oneshot};

/// Most calls in one commit.
const GROUP: usize = 256;
/// Calls that may wait; more make the callers wait.
const QUEUE: usize = 1_024;

type Done = Box<dyn FnOnce(Result<(), StoreFault>) + Send>;
/// Given no connection, a call does nothing and passes the fault on.
type Call = Box<dyn FnOnce(Result<&Connection, StoreFault>) -> Done + Send>;

/// The way to a connection's thread. Dropping it waits for the thread, so that
/// the file is closed and at rest when the store is gone.
pub(super) struct Worker {
    calls: Option<mpsc::Sender<Call>>,
    thread: Option<JoinHandle<()>>,
    in_savepoints: bool,
}

impl Drop for Worker {
    fn drop(&mut self) {
        self.calls = None;
        if let Some(thread) = self.thread.take() {
            // A thread that panicked has closed its connection, too.
            let _ = thread.join();
        }
    }
}

impl Worker {
    /// A thread for reading.
    pub(super) fn reader(connection: Connection) -> Stored<Self> {
        Self::start("hub reader", false, connection, |connection, calls| {
            while let Some(call) = calls.blocking_recv() {
                call(Ok(connection))(Ok(()));
            }
        })
    }

    /// A thread for writing.
    pub(super) fn writer(connection: Connection) -> Stored<Self> {
        Self::start("hub writer", true, connection, |connection, calls| {
            while let Some(call) = calls.blocking_recv() {
                write_group(connection, call, calls);
            }
        })
    }

    fn start(
        name: &str,
        in_savepoints: bool,
        connection: Connection,
        work: impl FnOnce(&Connection, &mut mpsc::Receiver<Call>) + Send + 'static,
    ) -> Stored<Self> {
        let (calls, mut waiting) = mpsc::channel(QUEUE);
        let thread = std::thread::Builder::new()
            .name(name.to_owned())
            .spawn(move || work(&connection, &mut waiting))
            .map_err(|error| StoreFault::Failed(error.to_string()))?;
        Ok(Self {
            calls: Some(calls),
            thread: Some(thread),
            in_savepoints,
        })
    }

    /// Runs `f` on the thread. On the writing thread it is answered when it is on disk.
    pub(super) async fn run<T: Send + 'static>(
        &self,
        f: impl FnOnce(&Connection) -> Stored<T> + Send + 'static,
    ) -> Stored<T> {
        let (answer, answered) = oneshot::channel();
        let in_savepoints = self.in_savepoints;
        let call: Call = Box::new(move |connection| {
            let result = connection.and_then(|connection| {
                if in_savepoints {
                    in_savepoint(connection, f)
                } else {
                    f(connection)
                }
            });
            Box::new(move |committed| {
                // A caller who has gone away does not want the answer.
                let _ = answer.send(committed.and(result));
            })
        });
        let calls = self.calls.as_ref().ok_or_else(stopped)?;
        calls.send(call).await.map_err(|_| stopped())?;
        answered.await.map_err(|_| stopped())?
    }
}

fn stopped() -> StoreFault {
    StoreFault::Failed("the store has stopped".into())
}

fn write_group(connection: &Connection, first: Call, waiting: &mut mpsc::Receiver<Call>) {
    if let Err(error) = connection.execute_batch("BEGIN IMMEDIATE") {
        first(Err(error.into()))(Ok(()));
        return;
    }
    let mut done = vec![first(Ok(connection))];
    // A full disk may end the transaction inside a call; nothing joins it then.
    while done.len() < GROUP && !connection.is_autocommit() {
        let Ok(call) = waiting.try_recv() else { break };
        done.push(call(Ok(connection)));
    }
    let committed = connection.execute_batch("COMMIT").map_err(StoreFault::from);
    if committed.is_err() && !connection.is_autocommit() {
        // Nothing of the group stays; each caller is told so.
        let _ = connection.execute_batch("ROLLBACK");
    }
    for answer in done {
        answer(committed.clone());
    }
}

fn in_savepoint<T>(connection: &Connection, f: impl FnOnce(&Connection) -> Stored<T>) -> Stored<T> {
    connection.execute_batch("SAVEPOINT one")?;
    match f(connection) {
        Ok(value) => {
            connection.execute_batch("RELEASE one")?;
            Ok(value)
        }
        Err(fault) => {
            connection.execute_batch("ROLLBACK TO one; RELEASE one")?;
            Err(fault)
        }
    }
}
