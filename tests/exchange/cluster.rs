//! A PostgreSQL server of this test's own, on a free port, gone afterwards.

use std::net::TcpListener;
use std::os::unix::fs::chown;
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// A running server. PostgreSQL must be installed: the tests do not pass it over.
pub struct Cluster {
    server: Child,
    port: u16,
    _folder: TempDir,
}

impl Cluster {
    pub fn start() -> Self {
        let programs = programs();
        let user = unprivileged();
        let folder = tempfile::tempdir().unwrap();
        let data = folder.path().join("data");
        std::fs::create_dir(&data).unwrap();
        if let Some((uid, gid)) = user {
            chown(folder.path(), Some(uid), Some(gid)).unwrap();
            chown(&data, Some(uid), Some(gid)).unwrap();
        }
        let made = as_user(&programs.join("initdb"), user)
            .args(["--auth=trust", "--username=hub", "--encoding=UTF8"])
            .args(["--locale=C", "--no-sync", "--pgdata"])
            .arg(&data)
            .current_dir(folder.path())
            .output()
            .unwrap();
        assert!(
            made.status.success(),
            "initdb: {}",
            String::from_utf8_lossy(&made.stderr)
        );
        let port = free_port();
        let server = as_user(&programs.join("postgres"), user)
            .arg("-D")
            .arg(&data)
            .args(["-p", &port.to_string(), "-c", "listen_addresses=127.0.0.1"])
            .arg("-k")
            .arg(folder.path())
            .current_dir(folder.path())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut cluster = Self {
            server,
            port,
            _folder: folder,
        };
        cluster.wait(&programs);
        cluster
    }

    fn wait(&mut self, programs: &Path) {
        let until = Instant::now() + Duration::from_secs(60);
        while Instant::now() < until {
            assert!(
                self.server.try_wait().unwrap().is_none(),
                "postgres ended at once"
            );
            let ready = Command::new(programs.join("pg_isready"))
                .args(["-q", "-h", "127.0.0.1", "-p", &self.port.to_string()])
                .status()
                .unwrap();
            if ready.success() {
                return;
            }
            std::thread::sleep(Duration::from_millis(50));
        }
        panic!("postgres did not answer within a minute");
    }

    /// The URL of a new database.
    pub fn database(&self, name: &str) -> String {
        let made = Command::new(programs().join("createdb"))
            .args(["-h", "127.0.0.1", "-U", "hub", "-p", &self.port.to_string()])
            .arg(name)
            .status()
            .unwrap();
        assert!(made.success(), "createdb {name}");
        format!("postgres://hub@127.0.0.1:{}/{name}", self.port)
    }

    /// Runs SQL on a database, as its operator might.
    pub fn run(url: &str, sql: &str) {
        let done = Command::new("psql")
            .args(["-q", "-v", "ON_ERROR_STOP=1", "-c", sql, url])
            .status()
            .unwrap();
        assert!(done.success(), "{sql}");
    }
}

impl Drop for Cluster {
    fn drop(&mut self) {
        // An immediate end: nothing of it is wanted afterwards.
        let _ = Command::new("kill")
            .args(["-QUIT", &self.server.id().to_string()])
            .status();
        let _ = self.server.wait();
    }
}

fn free_port() -> u16 {
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    listener.local_addr().unwrap().port()
}

/// The folder with the server's programs: beside Debian's, or anywhere on the path.
fn programs() -> PathBuf {
    let versions = std::fs::read_dir("/usr/lib/postgresql")
        .into_iter()
        .flatten();
    let packaged = versions.flatten().map(|version| version.path().join("bin"));
    let path = std::env::var_os("PATH").unwrap_or_default();
    packaged
        .chain(std::env::split_paths(&path))
        .find(|folder| folder.join("initdb").exists())
        .unwrap_or_else(|| panic!("PostgreSQL is not here: apt-get install postgresql"))
}

/// The server refuses to run as root; then it runs as the user its package made.
fn unprivileged() -> Option<(u32, u32)> {
    let id = |arguments: &[&str]| -> Option<u32> {
        let output = Command::new("id").args(arguments).output().ok()?;
        String::from_utf8(output.stdout).ok()?.trim().parse().ok()
    };
    if id(&["-u"]) != Some(0) {
        return None;
    }
    let user = id(&["-u", "postgres"]).zip(id(&["-g", "postgres"]));
    Some(user.unwrap_or_else(|| panic!("there is no user postgres: apt-get install postgresql")))
}

fn as_user(program: &Path, user: Option<(u32, u32)>) -> Command {
    let mut command = Command::new(program);
    if let Some((uid, gid)) = user {
        command.uid(uid).gid(gid);
    }
    command
}
