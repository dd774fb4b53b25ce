//! A hub that lies about photos, or speaks no HTTP that makes sense, against a phone.
//! Photos of the phone stay, none is kept that is not what its name says, the others
//! go on, and it ends within a bounded number of requests.

#![allow(clippy::type_complexity)] // tables of cases

use crate::scouts::{head_file, in_memory};
use exchange::http::{HttpWay, Trust};
use exchange::meet::{Way as _, meet};
use exchange::photos::{self, Photos};
use exchange::{PageSize, Trouble};
use headwalk_tests::picture::{Camera, jpeg, scene};
use notebook::Notebook;
use notebook::log;
use notebook::photo::PhotoFile;
use service::{FileRequest, PhotoOf, Service, ask, prepare};
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};
use tempfile::TempDir;
use wire::{Answer, Ask, PHOTO_BYTES, PHOTO_PART, Refusal, Role, frame};

/// No lie may cost a phone more requests than this.
const MOST_REQUESTS: usize = 400;

/// What came in.
struct Request {
    method: String,
    path: String,
    body: Vec<u8>,
    /// First byte asked for, or given.
    from: u64,
}

/// What goes out.
enum Reply {
    Frame(Answer),
    /// Part of a photo, and how long the whole is said to be.
    Part(Vec<u8>, u64),
    /// Anything at all.
    Raw(Vec<u8>),
    /// Bytes, one now and then, for as long as somebody listens.
    Dribble(&'static [u8]),
}

type Script = Box<dyn Fn(&Request) -> Reply + Send + Sync>;

/// A server on loopback that answers what the script says.
struct Server {
    at: SocketAddr,
    requests: Arc<AtomicUsize>,
}

impl Server {
    fn start(script: Script) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let at = listener.local_addr().unwrap();
        let (requests, script) = (Arc::new(AtomicUsize::new(0)), Arc::new(script));
        let counted = Arc::clone(&requests);
        std::thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                let (counted, script) = (Arc::clone(&counted), Arc::clone(&script));
                std::thread::spawn(move || {
                    counted.fetch_add(1, Ordering::SeqCst);
                    let _ = serve(stream, &script);
                });
            }
        });
        Self { at, requests }
    }

    fn way(&self) -> HttpWay {
        let url = format!("http://{}", self.at);
        HttpWay::within(Duration::from_secs(2), &url, &Trust::Public, None).unwrap()
    }
}

/// One request a connection.
fn serve(stream: TcpStream, script: &Script) -> std::io::Result<()> {
    stream.set_read_timeout(Some(Duration::from_secs(5)))?;
    let mut reader = BufReader::new(stream.try_clone()?);
    let mut line = String::new();
    reader.read_line(&mut line)?;
    let mut words = line.split_whitespace().map(str::to_owned);
    let (method, path) = (words.next(), words.next());
    let (mut length, mut from) = (0, 0);
    loop {
        let mut header = String::new();
        reader.read_line(&mut header)?;
        let header = header.trim().to_lowercase();
        if header.is_empty() {
            break;
        }
        let number = |text: &str| {
            let digits: String = text
                .chars()
                .skip_while(|letter| !letter.is_ascii_digit())
                .take_while(char::is_ascii_digit)
                .collect();
            digits.parse().unwrap_or(0)
        };
        if header.starts_with("content-length:") {
            length = number(&header);
        } else if header.starts_with("range:") || header.starts_with("content-range:") {
            from = number(&header);
        }
    }
    let mut body = vec![0; usize::try_from(length).unwrap()];
    reader.read_exact(&mut body)?;
    let request = Request {
        method: method.unwrap_or_default(),
        path: path.unwrap_or_default(),
        body,
        from,
    };
    let mut stream = stream;
    match script(&request) {
        Reply::Frame(answer) => stream.write_all(&framed(&frame::encode(&answer).unwrap())),
        Reply::Part(bytes, size) => {
            let last = request.from + bytes.len() as u64;
            let head = format!(
                "HTTP/1.1 206 Partial Content\r\nconnection: close\r\ncontent-length: {}\r\n\
                 content-range: bytes {}-{last}/{size}\r\n\r\n",
                bytes.len(),
                request.from
            );
            stream.write_all(&[head.as_bytes(), &bytes].concat())
        }
        Reply::Raw(bytes) => stream.write_all(&bytes),
        Reply::Dribble(bytes) => {
            for byte in bytes.iter().chain(std::iter::repeat(&b'x')) {
                stream.write_all(&[*byte])?;
                stream.flush()?;
                std::thread::sleep(Duration::from_millis(20));
            }
            Ok(())
        }
    }
}

fn framed(frame: &[u8]) -> Vec<u8> {
    let head = format!(
        "HTTP/1.1 200 OK\r\nconnection: close\r\ncontent-length: {}\r\n\
         content-type: application/vnd.headwalk.exchange\r\n\r\n",
        frame.len()
    );
    [head.as_bytes(), frame].concat()
}

/// A notebook with two photos, and room for others beside it.
struct Scene {
    ada: Notebook,
    photos: Vec<PhotoFile>,
    folder: TempDir,
}

impl Scene {
    fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let ada = with_photos(&folder.path().join("ada.db"));
        let photos = ada.photos_to_send(9).unwrap();
        assert_eq!(photos.len(), 2);
        Self {
            ada,
            photos,
            folder,
        }
    }

    /// A notebook that knows of the photos and has not got them.
    fn ben(&self, name: &str) -> Notebook {
        let path = self.folder.path().join(format!("{name}.db"));
        let mut ben = Notebook::open_here(&path, None).unwrap();
        let changes = log::after(self.ada.db(), self.ada.device(), 0, usize::MAX).unwrap();
        ben.ingest(&changes).unwrap();
        assert_eq!(ben.photos_to_fetch(9).unwrap().len(), 2);
        ben
    }

    fn bytes(&self, photo: usize) -> Vec<u8> {
        let files = self.ada.photo_files().unwrap();
        files.read(self.photos[photo].name).unwrap().unwrap()
    }
}

/// A notebook with two photos.
pub fn with_photos(path: &Path) -> Notebook {
    let mut service = Service::new(Notebook::open_here(path, None).unwrap()).unwrap();
    let text = head_file("North 40", "Ada", 4);
    service.call(ask::ImportHeadFile { text }).unwrap();
    let rows = service.call(ask::Plantings {}).unwrap().answer.rows;
    let of = PhotoOf::Planting(rows[0].id);
    let plain = Camera {
        orientation: 1,
        place: None,
    };
    for width in [1_600, 1_200] {
        let taken = jpeg(&scene(width, 1_200), plain).unwrap();
        let prepared = prepare(FileRequest::AddPhoto { id: None, of }, &taken).unwrap();
        service.call_prepared(prepared).unwrap();
    }
    service.into_notebook()
}

fn carried(notebook: &mut Notebook, server: &Server, role: Role) -> Result<Photos, Trouble> {
    let done = photos::exchange(notebook, &mut server.way(), role, &|| {}, &mut |_| {
        assert!(
            server.requests.load(Ordering::SeqCst) <= MOST_REQUESTS,
            "requests without an end"
        );
        ControlFlow::Continue(())
    });
    assert!(
        server.requests.load(Ordering::SeqCst) <= MOST_REQUESTS,
        "requests without an end"
    );
    done
}

/// What a hub says that holds all photos, but of the first only what `lie` makes of the
/// part that starts at a byte.
fn gives(scene: &Scene, lie: fn(&[u8], u64) -> Reply) -> Server {
    let (first, second) = (scene.bytes(0), scene.bytes(1));
    let name = scene.photos[0].name.to_string();
    Server::start(Box::new(move |request| {
        if request.method == "POST" {
            return Reply::Frame(Answer::PhotosMissing(Vec::new().into()));
        }
        if request.path.ends_with(&name) {
            lie(&first, request.from)
        } else {
            part(&second, request.from)
        }
    }))
}

fn part(whole: &[u8], from: u64) -> Reply {
    let from = usize::try_from(from).unwrap();
    if from >= whole.len() {
        return Reply::Frame(Answer::Refused(Refusal::OutOfBounds));
    }
    let to = (from + usize::try_from(PHOTO_PART).unwrap()).min(whole.len());
    Reply::Part(whole[from..to].to_vec(), whole.len() as u64)
}

type Case = (&'static str, fn(&[u8], u64) -> Reply);

const GIVEN: &[Case] = &[
    ("other bytes", |whole, from| {
        let mut other = whole.to_vec();
        other[7] ^= 1;
        part(&other, from)
    }),
    ("another picture of another length", |_, from| {
        part(&vec![5; 700_000], from)
    }),
    ("larger than a photo may be", |_, _| {
        Reply::Part(vec![5; PHOTO_PART as usize], 1 << 60)
    }),
    ("as large as it may be, part by part for ever", |_, _| {
        Reply::Part(vec![5; PHOTO_PART as usize], PHOTO_BYTES)
    }),
    ("byte by byte", |whole, from| {
        let from = usize::try_from(from).unwrap() % whole.len();
        Reply::Part(vec![whole[from]], whole.len() as u64)
    }),
    ("a length that grows", |_, from| {
        Reply::Part(vec![5; PHOTO_PART as usize], from + 2 * PHOTO_PART)
    }),
    ("no bytes", |whole, _| {
        Reply::Part(Vec::new(), whole.len() as u64)
    }),
    ("shorter than what has come", |whole, from| {
        if from == 0 {
            Reply::Part(whole[..PHOTO_PART as usize].to_vec(), whole.len() as u64)
        } else {
            Reply::Part(vec![1, 2, 3], from)
        }
    }),
    ("more than was asked for", |whole, _| {
        Reply::Part(vec![5; 2 * PHOTO_PART as usize], whole.len() as u64)
    }),
    ("an answer to another question", |_, _| {
        Reply::Frame(Answer::Done)
    }),
    ("not here after all", |_, _| {
        Reply::Frame(Answer::Refused(Refusal::Unknown))
    }),
    ("out of bounds", |_, _| {
        Reply::Frame(Answer::Refused(Refusal::OutOfBounds))
    }),
];

#[test]
fn a_photo_that_is_no_photo_is_not_kept_and_holds_no_other_up() {
    let scene = Scene::new();
    for (name, lie) in GIVEN {
        let mut ben = scene.ben(name);
        let server = gives(&scene, *lie);
        let done = carried(&mut ben, &server, Role::Reader);
        println!("{name}: {done:?}");
        let files = ben.photo_files().unwrap();
        assert!(!files.path(scene.photos[0].name).exists(), "{name}: kept");
        let other = files.read(scene.photos[1].name).unwrap();
        assert_eq!(
            other,
            Some(scene.bytes(1)),
            "{name}: the other did not come"
        );
        // The hub tells the truth again: nothing of the lie stands in its way.
        let honest = gives(&scene, part);
        for _ in 0..2 {
            carried(&mut ben, &honest, Role::Reader).unwrap();
        }
        let files = ben.photo_files().unwrap();
        let came = files.read(scene.photos[0].name).unwrap();
        assert_eq!(came, Some(scene.bytes(0)), "{name}: it never comes");
    }
}

/// What a hub says of the photos that it is given.
const TAKEN: &[(&str, fn(&Request) -> Reply)] = &[
    ("holds more than there is", |_| held(u64::MAX)),
    ("a byte more each time", |request| held(request.from + 1)),
    ("always at the end", |request| {
        held(request.from + request.body.len() as u64)
    }),
    ("begin anew each time", |_| held(0)),
    ("now this, now that", |request| {
        held(if request.from == 0 { PHOTO_PART } else { 0 })
    }),
    ("an answer to another question", |_| {
        Reply::Frame(Answer::Done)
    }),
    ("out of bounds", |_| {
        Reply::Frame(Answer::Refused(Refusal::OutOfBounds))
    }),
];

fn held(bytes: u64) -> Reply {
    Reply::Frame(Answer::PhotosMissing(vec![([0; 32], bytes)].into()))
}

#[test]
fn what_a_hub_says_of_photos_it_is_given_is_bounded() {
    let mut scene = Scene::new();
    for (name, lie) in TAKEN {
        scene.ada.forget_photos_on_hub().unwrap();
        let lacks: Vec<([u8; 32], u64)> = scene
            .photos
            .iter()
            .map(|photo| (photo.name.0, 0))
            // What nobody asked about is no matter.
            .chain([([9; 32], 5), (scene.photos[0].name.0, u64::MAX)])
            .collect();
        let (lie, first) = (*lie, scene.photos[0].name.to_string());
        let server = Server::start(Box::new(move |request| {
            if request.method == "POST" {
                Reply::Frame(Answer::PhotosMissing(lacks.clone().into()))
            } else if request.path.ends_with(&first) {
                lie(request)
            } else {
                Reply::Frame(Answer::PhotosMissing(Vec::new().into()))
            }
        }));
        let done = carried(&mut scene.ada, &server, Role::Scout);
        println!("{name}: {done:?}");
        let left = scene.ada.photos_to_send(9).unwrap();
        assert_eq!(left, [scene.photos[0]], "{name}: the other did not go");
        assert!(scene.bytes(0).len() > 1_000, "{name}: the photo stays");
    }
}

/// A hub that says it lacks what it was never asked about, or everything.
#[test]
fn photos_said_to_be_lacking_are_only_those_asked_about() {
    let mut scene = Scene::new();
    let lacks: Vec<([u8; 32], u64)> = (0..900_u16)
        .map(|number| {
            let mut name = [7; 32];
            name[..2].copy_from_slice(&number.to_be_bytes());
            (name, u64::MAX)
        })
        .collect();
    let server = Server::start(Box::new(move |_| {
        Reply::Frame(Answer::PhotosMissing(lacks.clone().into()))
    }));
    for photo in &scene.photos {
        scene.ada.photo_is_on_hub(photo.name).unwrap();
    }
    let gone = photos::look_again(&mut scene.ada, &mut server.way()).unwrap();
    assert_eq!(gone, 0);
}

const OURS: &str = "content-type: application/vnd.headwalk.exchange\r\n";

/// Answers that are no answers.
fn nonsense() -> Vec<(&'static str, fn() -> Reply)> {
    vec![
        ("nothing", || Reply::Raw(Vec::new())),
        ("no HTTP", || Reply::Raw(vec![0xff; 4_000])),
        ("a frame of nothing", || Reply::Raw(framed(b""))),
        ("a frame of noise", || Reply::Raw(framed(&[0xa5; 3_000]))),
        ("a frame with its end missing", || {
            let frame = frame::encode(&Answer::Done).unwrap();
            Reply::Raw(framed(&frame[..frame.len() - 1]))
        }),
        ("a frame of another version", || {
            Reply::Raw(framed(&frame::encode_as(200, &Answer::Done).unwrap()))
        }),
        ("a question for an answer", || {
            Reply::Raw(framed(&frame::encode(&Ask::Crew).unwrap()))
        }),
        ("a body said to be endless", || {
            Reply::Raw(
                format!(
                    "HTTP/1.1 200 OK\r\n{OURS}content-length: {}\r\n\r\nHW",
                    u64::MAX
                )
                .into(),
            )
        }),
        ("five million bytes", || {
            Reply::Raw(framed(&vec![b'H'; 5_000_000]))
        }),
        ("a header of a million bytes", || {
            let long = "x".repeat(1_000_000);
            Reply::Raw(format!("HTTP/1.1 200 OK\r\nx: {long}\r\n{OURS}\r\n").into())
        }),
        ("ten thousand headers", || {
            let many = "x: y\r\n".repeat(10_000);
            Reply::Raw(format!("HTTP/1.1 200 OK\r\n{many}{OURS}\r\n").into())
        }),
        ("somewhere else", || {
            Reply::Raw(
                b"HTTP/1.1 307 Temporary Redirect\r\nlocation: http://127.0.0.1:9/\r\n\
                  content-length: 0\r\n\r\n"
                    .to_vec(),
            )
        }),
        ("a page for people", || {
            Reply::Raw(
                b"HTTP/1.1 200 OK\r\ncontent-type: text/html\r\ncontent-length: 2\r\n\r\nhi"
                    .to_vec(),
            )
        }),
        ("a slow header", || {
            Reply::Dribble(b"HTTP/1.1 200 OK\r\nx: ")
        }),
        ("a slow body", || {
            Reply::Dribble(
                b"HTTP/1.1 200 OK\r\ncontent-type: application/vnd.headwalk.exchange\r\n\
                  content-length: 900000\r\n\r\nHW",
            )
        }),
        ("a slow body without a length", || {
            Reply::Dribble(
                b"HTTP/1.1 200 OK\r\ncontent-type: application/vnd.headwalk.exchange\r\n\r\nHW",
            )
        }),
    ]
}

#[test]
fn no_answer_at_all_ends_with_a_clear_word_and_in_time() {
    for (name, reply) in nonsense() {
        let server = Server::start(Box::new(move |_| reply()));
        let begun = Instant::now();
        let answer = server.way().ask(&Ask::Crew);
        let met = meet(
            &mut in_memory(),
            &mut server.way(),
            PageSize::default(),
            &mut |_| ControlFlow::Continue(()),
        );
        println!("{name}: {answer:?} {:?}", begun.elapsed());
        let trouble = answer.unwrap_err();
        let clear = matches!(
            trouble,
            Trouble::NoSignal(_)
                | Trouble::Cut
                | Trouble::Nonsense
                | Trouble::NotLetIn
                | Trouble::Version { .. }
        );
        assert!(clear, "{name}: {trouble}");
        assert!(met.is_err(), "{name}");
        // Two questions of two seconds, with room for a busy machine.
        assert!(begun.elapsed() < Duration::from_secs(20), "{name}");
        assert!(server.requests.load(Ordering::SeqCst) <= 4, "{name}");
    }
}
