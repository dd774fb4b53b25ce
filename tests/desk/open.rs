//! A desk on a free port, and plain HTTP to it.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::rc::Rc;
use std::time::Duration;

use headwalk_tests::program::headwalk;
use tempfile::TempDir;

/// A running desk; killed when dropped.
pub struct OpenDesk {
    child: Child,
    folder: Rc<TempDir>,
    /// Host and port.
    pub address: String,
    /// The secret of this start.
    pub secret: String,
}

/// An answer over HTTP.
pub struct Reply {
    pub status: u16,
    pub body: String,
    headers: Vec<(String, String)>,
}

impl Reply {
    pub fn header(&self, name: &str) -> Option<&str> {
        let mut headers = self.headers.iter();
        headers
            .find(|(known, _)| known.eq_ignore_ascii_case(name))
            .map(|(_, value)| value.as_str())
    }
}

impl OpenDesk {
    /// On a new notebook, with a page of its own.
    pub fn start() -> OpenDesk {
        let folder = tempfile::tempdir().unwrap();
        let screens = folder.path().join("screens");
        std::fs::create_dir(&screens).unwrap();
        std::fs::write(screens.join("index.html"), "<p>desk under test</p>").unwrap();
        OpenDesk::on(Rc::new(folder))
    }

    /// Another start on the same notebook.
    pub fn restart(&self) -> OpenDesk {
        OpenDesk::on(self.folder.clone())
    }

    fn on(folder: Rc<TempDir>) -> OpenDesk {
        let [notebook, screens]: [PathBuf; 2] =
            ["notebook.db", "screens"].map(|name| Path::join(folder.path(), name));
        let mut child = Command::new(headwalk().unwrap())
            .args(["desk", "--no-open", "--today", "2026-09-01", "--notebook"])
            .arg(notebook)
            .arg("--screens")
            .arg(screens)
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap())
            .read_line(&mut line)
            .unwrap();
        let rest = line
            .trim()
            .strip_prefix("http://")
            .expect("one line with the address");
        let (address, secret) = rest.split_once("/#secret=").unwrap();
        OpenDesk {
            address: address.to_owned(),
            secret: secret.to_owned(),
            child,
            folder,
        }
    }

    /// Id of the process.
    pub fn process(&self) -> u32 {
        self.child.id()
    }

    /// A call as the page makes it.
    pub fn call(&self, body: &str) -> Reply {
        self.try_call(body).expect("the desk answers")
    }

    /// A call as the page makes it; none where the desk is gone.
    pub fn try_call(&self, body: &str) -> Option<Reply> {
        let headers = [
            ("Content-Type", "application/json"),
            ("X-Headwalk-Secret", self.secret.as_str()),
        ];
        self.try_send("POST", "/call", &headers, body)
    }

    /// Any request; the desk's own Host unless one is given.
    pub fn send(&self, method: &str, path: &str, headers: &[(&str, &str)], body: &str) -> Reply {
        self.try_send(method, path, headers, body)
            .expect("the desk answers")
    }

    fn try_send(
        &self,
        method: &str,
        path: &str,
        headers: &[(&str, &str)],
        body: &str,
    ) -> Option<Reply> {
        let mut request = format!("{method} {path} HTTP/1.1\r\nConnection: close\r\n");
        if !headers.iter().any(|(name, _)| *name == "Host") {
            request += &format!("Host: {}\r\n", self.address);
        }
        for (name, value) in headers {
            request += &format!("{name}: {value}\r\n");
        }
        request += &format!("Content-Length: {}\r\n\r\n{body}", body.len());
        let mut stream = TcpStream::connect(&self.address).ok()?;
        stream
            .set_read_timeout(Some(Duration::from_secs(20)))
            .unwrap();
        stream.write_all(request.as_bytes()).ok()?;
        let mut answer = String::new();
        stream.read_to_string(&mut answer).ok()?;
        // A desk killed in the middle of an answer has not answered.
        let (head, body) = answer.split_once("\r\n\r\n")?;
        let mut lines = head.lines();
        let status = lines.next().unwrap().split(' ').nth(1).unwrap();
        let reply = Reply {
            status: status.parse().unwrap(),
            body: body.to_owned(),
            headers: lines
                .filter_map(|line| line.split_once(": "))
                .map(|(name, value)| (name.to_owned(), value.to_owned()))
                .collect(),
        };
        let whole = reply
            .header("content-length")
            .is_none_or(|length| length == body.len().to_string());
        whole.then_some(reply)
    }

    /// Asks it to stop, as a service manager would.
    pub fn stop_kindly(&mut self) -> ExitStatus {
        let id = self.child.id().to_string();
        assert!(
            Command::new("kill")
                .args(["-TERM", &id])
                .status()
                .unwrap()
                .success()
        );
        self.child.wait().unwrap()
    }
}

impl Drop for OpenDesk {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
