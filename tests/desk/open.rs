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

/// An answer over HTTP, whatever it holds.
pub struct BytesReply {
    pub status: u16,
    pub body: Vec<u8>,
    pub headers: Vec<(String, String)>,
}

impl BytesReply {
    pub fn header(&self, name: &str) -> Option<&str> {
        header(&self.headers, name)
    }
}

fn header<'h>(headers: &'h [(String, String)], name: &str) -> Option<&'h str> {
    let mut headers = headers.iter();
    headers
        .find(|(known, _)| known.eq_ignore_ascii_case(name))
        .map(|(_, value)| value.as_str())
}

/// Reads one answer; of a connection that stays open no more than its length.
pub fn answer(stream: &mut TcpStream) -> Option<BytesReply> {
    let mut bytes = Vec::new();
    let mut piece = [0; 4096];
    let head = loop {
        if let Some(end) = bytes.windows(4).position(|at| at == b"\r\n\r\n") {
            break end;
        }
        let got = stream.read(&mut piece).ok()?;
        if got == 0 {
            return None;
        }
        bytes.extend_from_slice(&piece[..got]);
    };
    let mut body = bytes.split_off(head + 4);
    let text = String::from_utf8(bytes).ok()?;
    let mut lines = text.lines();
    let status = lines.next()?.split(' ').nth(1)?.parse().ok()?;
    let headers: Vec<(String, String)> = lines
        .filter_map(|line| line.split_once(": "))
        .map(|(name, value)| (name.to_owned(), value.to_owned()))
        .collect();
    let length: Option<usize> = header(&headers, "content-length").and_then(|it| it.parse().ok());
    match length {
        // A desk killed in the middle of an answer has not answered.
        Some(length) => {
            let come = body.len();
            body.resize(length, 0);
            stream.read_exact(&mut body[come.min(length)..]).ok()?;
        }
        None => {
            stream.read_to_end(&mut body).ok()?;
        }
    }
    Some(BytesReply {
        status,
        body,
        headers,
    })
}

impl Reply {
    pub fn header(&self, name: &str) -> Option<&str> {
        header(&self.headers, name)
    }
}

impl OpenDesk {
    /// On a new notebook, with a page of its own.
    pub fn start() -> OpenDesk {
        OpenDesk::on(OpenDesk::new_folder())
    }

    /// Another start on the same notebook.
    pub fn restart(&self) -> OpenDesk {
        OpenDesk::on(self.folder.clone())
    }

    /// As [`OpenDesk::start`], and lets it start the browser, by the `xdg-open` in a
    /// folder.
    #[cfg(target_os = "linux")]
    pub fn start_browser(starters: &Path) -> OpenDesk {
        let path = std::env::var("PATH").unwrap_or_default();
        let program = headwalk().unwrap();
        let mut command = Command::new(program);
        command.env("PATH", format!("{}:{path}", starters.display()));
        OpenDesk::run(command, &["desk"], OpenDesk::new_folder())
    }

    /// As [`OpenDesk::start`], where the system lets a program have few files open.
    pub fn start_with_few_files() -> OpenDesk {
        let mut command = Command::new("sh");
        command
            .args(["-c", "ulimit -n 256 && exec \"$@\"", "sh"])
            .arg(headwalk().unwrap());
        OpenDesk::run(command, &["desk", "--no-open"], OpenDesk::new_folder())
    }

    fn new_folder() -> Rc<TempDir> {
        let folder = tempfile::tempdir().unwrap();
        let screens = folder.path().join("screens");
        std::fs::create_dir(&screens).unwrap();
        std::fs::write(screens.join("index.html"), "<p>desk under test</p>").unwrap();
        Rc::new(folder)
    }

    fn on(folder: Rc<TempDir>) -> OpenDesk {
        let command = Command::new(headwalk().unwrap());
        OpenDesk::run(command, &["desk", "--no-open"], folder)
    }

    fn run(mut command: Command, arguments: &[&str], folder: Rc<TempDir>) -> OpenDesk {
        let [notebook, screens]: [PathBuf; 2] =
            ["notebook.db", "screens"].map(|name| Path::join(folder.path(), name));
        let mut child = command
            .args(arguments)
            .args(["--today", "2026-09-01", "--notebook"])
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

    /// The folder with the notebook in it.
    pub fn folder(&self) -> &Path {
        self.folder.path()
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
        let answer = self.try_send_bytes(method, path, headers, body.as_bytes())?;
        Some(Reply {
            status: answer.status,
            body: String::from_utf8(answer.body).ok()?,
            headers: answer.headers,
        })
    }

    /// As [`OpenDesk::send`], of bytes and with bytes for an answer; none where the
    /// desk is gone.
    pub fn try_send_bytes(
        &self,
        method: &str,
        path: &str,
        headers: &[(&str, &str)],
        body: &[u8],
    ) -> Option<BytesReply> {
        let mut headers = headers.to_vec();
        let length = body.len().to_string();
        headers.push(("Connection", "close"));
        headers.push(("Content-Length", &length));
        let mut stream = self.begin(method, path, &headers)?;
        // A desk that refuses does not wait for the rest.
        let _ = stream.write_all(body);
        answer(&mut stream)
    }

    /// Sends the head of a request with its headers, no body; the desk's own Host
    /// unless one is given.
    pub fn begin(&self, method: &str, path: &str, headers: &[(&str, &str)]) -> Option<TcpStream> {
        let mut request = format!("{method} {path} HTTP/1.1\r\n");
        if !headers.iter().any(|(name, _)| *name == "Host") {
            request += &format!("Host: {}\r\n", self.address);
        }
        for (name, value) in headers {
            request += &format!("{name}: {value}\r\n");
        }
        request += "\r\n";
        let mut stream = TcpStream::connect(&self.address).ok()?;
        for set in [TcpStream::set_read_timeout, TcpStream::set_write_timeout] {
            set(&stream, Some(Duration::from_secs(20))).unwrap();
        }
        stream.write_all(request.as_bytes()).ok()?;
        Some(stream)
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
