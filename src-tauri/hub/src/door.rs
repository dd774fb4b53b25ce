//! The way in over HTTP: who is asking, how much, how fast.
//!
//! `POST /exchange` takes one framed question. `PUT` and `GET /photos/NAME` move
//! photos. `GET /health` says whether the store answers. Everything a stranger
//! tries gets the same answer, whether the path, the token or the code was wrong.
//!
//! | what | limit |
//! | --- | --- |
//! | connections | see [`ConnectionLimits`]: silent ones end for new ones |
//! | head of a request | 15 s, 16 kB; 10 s for a TLS handshake before it |
//! | a stranger's body | 2 kB within 5 s, and it takes no room of members' |
//! | requests of strangers | 30 a minute from one network; a right code still passes |
//! | a member's requests | 50 a second after a burst of 500 |
//! | a member's body | 1 MB within 30 s, 2 kB a second after 10 s |
//! | bodies in memory | 32; of one network 16, of one member 4; the others wait |
//! | a member's changes and photos | 2 MB a second after 64 MB; see [`Quotas`] for all of them |
//!
//! Who asks is known before a body is read. A network is an IPv4 address or an IPv6
//! /64; behind a proxy it is that of the address which the proxy passes on.
//!
//! [`Quotas`]: crate::store::Quotas

use crate::answer::{Hub, Outcome, refusal};
use crate::bodies::{self, Bodies, BodyRoom, Flow, Pace};
use crate::connections::{ConnectionLimits, Standing};
use crate::metrics::Metrics;
use crate::network::Network;
use crate::photos::{Arriving, name_from};
use crate::store::Member;
use axum::Router;
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::header::{
    ACCEPT_RANGES, AUTHORIZATION, CACHE_CONTROL, CONTENT_RANGE, CONTENT_TYPE, HOST, ORIGIN, RANGE,
    RETRY_AFTER,
};
use axum::http::request::Parts;
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode};
use axum::response::{IntoResponse, Response};
use governor::{DefaultKeyedRateLimiter, Quota, RateLimiter};
use std::net::IpAddr;
use std::num::NonZeroU32;
use std::ops::Range;
use std::sync::Arc;
use std::time::{Duration, Instant};
use uuid::Uuid;
use wire::code::Token;
use wire::frame::{self, FrameFault};
use wire::{Answer, Ask, Full, NEWEST_VERSION, OLDEST_VERSION, PHOTO_PART, Refusal};

/// Media type of a framed message.
pub const FRAME_TYPE: &str = "application/vnd.headwalk.exchange";
/// A stranger has nothing long to say.
const STRANGER_BODY: usize = 2_048;
/// And says it at once.
const STRANGER_TIME: Duration = Duration::from_secs(5);
/// Longest that a member who stores too fast is kept waiting before it is refused.
const LONGEST_WAIT: Duration = Duration::from_secs(10);
/// Bytes that a member may store before its rate counts.
const STORED_AT_ONCE: u64 = 64 * 1024 * 1024;

/// How the door is kept.
#[derive(Debug, Clone)]
pub struct DoorRules {
    /// Names, without port, that `Host` may say; empty allows any.
    pub hosts: Vec<String>,
    /// Requests come from a proxy that sets `X-Forwarded-For` and `X-Forwarded-Proto`.
    pub behind_proxy: bool,
    /// Requests a minute from one network that shows no valid token.
    pub strangers_a_minute: NonZeroU32,
    /// Requests a second from one member, after a burst of ten seconds' worth.
    pub member_a_second: NonZeroU32,
    /// The head of a request must have come within this time; it also ends idle connections.
    pub head_time: Duration,
    /// A whole body must have come within this time.
    pub body_time: Duration,
    /// A body may be silent for this time at first.
    pub body_grace: Duration,
    /// Bytes a second with which a body has to come from then on.
    pub body_least: u32,
    /// Bytes a second that one member stores, after the first 64 MB.
    pub stored_a_second: u32,
    /// How many connections there may be.
    pub connections: ConnectionLimits,
}

impl Default for DoorRules {
    fn default() -> Self {
        Self {
            hosts: Vec::new(),
            behind_proxy: false,
            strangers_a_minute: NonZeroU32::new(30).unwrap_or(NonZeroU32::MIN),
            member_a_second: NonZeroU32::new(50).unwrap_or(NonZeroU32::MIN),
            head_time: Duration::from_secs(15),
            body_time: Duration::from_secs(30),
            body_grace: Duration::from_secs(10),
            body_least: 2 * 1024,
            stored_a_second: 2 * 1024 * 1024,
            connections: ConnectionLimits::default(),
        }
    }
}

/// The address a connection came from.
#[derive(Debug, Clone, Copy)]
pub struct Peer(pub IpAddr);

/// The door of a hub.
#[derive(Clone)]
pub struct Door(Arc<Inner>);

struct Inner {
    hub: Hub,
    rules: DoorRules,
    metrics: Metrics,
    strangers: DefaultKeyedRateLimiter<Network>,
    members: DefaultKeyedRateLimiter<Uuid>,
    bodies: Bodies,
    flow: Flow,
}

impl Door {
    /// A door to this hub.
    #[must_use]
    pub fn new(hub: Hub, rules: DoorRules, metrics: Metrics) -> Self {
        let burst = rules.member_a_second.saturating_mul(TEN);
        let members = Quota::per_second(rules.member_a_second).allow_burst(burst);
        Self(Arc::new(Inner {
            hub,
            strangers: RateLimiter::keyed(Quota::per_minute(rules.strangers_a_minute)),
            members: RateLimiter::keyed(members),
            bodies: Bodies::new(),
            flow: Flow::new(rules.stored_a_second, STORED_AT_ONCE),
            rules,
            metrics,
        }))
    }

    /// The service behind the door.
    pub fn router(&self) -> Router {
        // One handler sees every path and method, so that no library's own
        // answer tells a stranger which of them exist.
        Router::new().fallback(enter).with_state(self.clone())
    }

    /// Forgets the addresses and members that have been quiet, to keep the lists short.
    pub fn forget_quiet(&self) {
        self.0.strangers.retain_recent();
        self.0.members.retain_recent();
        self.0.bodies.forget_quiet();
        self.0.flow.forget_quiet(Instant::now());
    }
}

const TEN: NonZeroU32 = NonZeroU32::MIN.saturating_add(9);

async fn enter(State(door): State<Door>, request: Request) -> Response {
    let (head, body) = request.into_parts();
    let _in_hand = head.extensions.get::<Arc<Standing>>().map(Standing::asks);
    match (&head.method, head.uri.path()) {
        (&Method::GET, "/health") => health(&door).await,
        (&Method::POST, "/exchange") => ask(&door, &head, body).await,
        (&Method::PUT | &Method::GET | &Method::HEAD, path) => {
            match path.strip_prefix("/photos/").and_then(name_from) {
                Some(name) => photo(&door, name, &head, body).await,
                None => elsewhere(&door, &head).await,
            }
        }
        _ => elsewhere(&door, &head).await,
    }
}

async fn health(door: &Door) -> Response {
    match door.0.hub.store.ping().await {
        Ok(()) => (StatusCode::OK, "ok\n").into_response(),
        Err(_) => (
            StatusCode::SERVICE_UNAVAILABLE,
            "the store does not answer\n",
        )
            .into_response(),
    }
}

/// Who asks, and from where.
enum Caller {
    Member(Box<Member>, Network),
    /// A stranger, and whether their network has asked too much.
    Nobody {
        too_much: bool,
    },
}

impl Door {
    /// Checks everything that can be checked before the body. An answer means no.
    async fn admit(&self, request: &Parts) -> Result<Caller, Response> {
        let inner = &self.0;
        let headers = &request.headers;
        let from = network(&inner.rules, request);
        let fits = from.is_some() && self.request_fits(request);
        let member = match (token_of(headers), fits) {
            (Some(token), true) => match inner.hub.member(&token).await {
                Ok(member) => member,
                Err(fault) => return Err(refused(refusal(fault))),
            },
            _ => None,
        };
        if let Some(member) = member {
            if let Some(standing) = request.extensions.get::<Arc<Standing>>() {
                standing.is_member();
            }
            if inner.members.check_key(&member.device).is_err() {
                inner.metrics.refused("member rate");
                return Err(refused(Refusal::Slower(1)));
            }
            let from = from.unwrap_or(Network::UNKNOWN);
            return Ok(Caller::Member(Box::new(member), from));
        }
        inner.metrics.stranger();
        let key = from.unwrap_or(Network::UNKNOWN);
        let too_much = inner.strangers.check_key(&key).is_err();
        // A wrong token, or none where the request is odd, is not looked at further.
        if headers.contains_key(AUTHORIZATION) || !fits {
            return Err(self.unknown(too_much));
        }
        Ok(Caller::Nobody { too_much })
    }

    /// What a stranger hears, whatever was wrong.
    fn unknown(&self, too_much: bool) -> Response {
        if too_much {
            self.0.metrics.refused("stranger rate");
            too_many()
        } else {
            nothing_here()
        }
    }

    /// Room for a member's body, when it is the member's turn.
    async fn body_room(&self, member: &Member, from: Network) -> Result<BodyRoom, Response> {
        let inner = &self.0;
        let wait = inner.flow.wait(member.device, Instant::now());
        if wait > LONGEST_WAIT {
            inner.metrics.refused("bytes a second");
            let seconds = u32::try_from(wait.as_secs()).unwrap_or(u32::MAX);
            return Err(refused(Refusal::Slower(seconds)));
        }
        tokio::time::sleep(wait).await;
        match inner.bodies.enter(member.device, from).await {
            Some(room) => Ok(room),
            None => {
                inner.metrics.refused("no room for a body");
                Err(refused(Refusal::Slower(5)))
            }
        }
    }

    /// Counts the answers that say that there is no more room.
    fn note_full(&self, answer: &Answer) {
        if let Answer::Refused(Refusal::Full(full)) = answer {
            self.0.metrics.refused(match full {
                Full::Series => "series of a member",
                Full::Changes => "changes of a member",
                Full::Photos => "photos of a member",
                Full::Crew => "series of a crew",
            });
        }
    }

    fn pace(&self) -> Pace {
        let rules = &self.0.rules;
        Pace {
            grace: rules.body_grace,
            least: rules.body_least,
            whole: rules.body_time,
        }
    }

    fn request_fits(&self, request: &Parts) -> bool {
        let headers = &request.headers;
        let once = |name| headers.get_all(name).iter().count() <= 1;
        let host = headers
            .get(HOST)
            .and_then(|host| host.to_str().ok())
            .map(without_port);
        let target = request.uri.host();
        // Browsers say where a script came from; no page has business here.
        host.is_some_and(|host| self.known_host(host))
            && target.is_none_or(|host| self.known_host(host))
            && !headers.contains_key(ORIGIN)
            && once(HOST)
            && once(AUTHORIZATION)
    }

    fn known_host(&self, host: &str) -> bool {
        let hosts = &self.0.rules.hosts;
        hosts.is_empty() || hosts.iter().any(|known| known.eq_ignore_ascii_case(host))
    }
}

fn without_port(host: &str) -> &str {
    match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|digit| digit.is_ascii_digit()) => name,
        _ => host,
    }
}

/// The network to count by; absent when a proxy was to say and did not.
fn network(rules: &DoorRules, request: &Parts) -> Option<Network> {
    if !rules.behind_proxy {
        let peer = request.extensions.get::<Peer>();
        return Some(peer.map_or(Network::UNKNOWN, |peer| Network::from(peer.0)));
    }
    let said = |name: &str| {
        request
            .headers
            .get(name)
            .and_then(|value| value.to_str().ok())
    };
    if said("x-forwarded-proto") != Some("https") {
        return None;
    }
    // The last entry is the one the proxy itself added.
    let addresses = said("x-forwarded-for")?;
    let last: IpAddr = addresses.rsplit(',').next()?.trim().parse().ok()?;
    Some(last.into())
}

fn token_of(headers: &HeaderMap) -> Option<Token> {
    let text = headers.get(AUTHORIZATION)?.to_str().ok()?;
    Token::from_text(text.strip_prefix("Bearer ")?)
}

async fn elsewhere(door: &Door, head: &Parts) -> Response {
    match door.admit(head).await {
        Err(answer) => answer,
        Ok(Caller::Nobody { too_much }) => door.unknown(too_much),
        Ok(Caller::Member(..)) => refused(Refusal::Unknown),
    }
}

async fn ask(door: &Door, head: &Parts, body: Body) -> Response {
    let started = Instant::now();
    let (kind, response) = match door.admit(head).await {
        Ok(Caller::Member(member, from)) => ask_as_member(door, &member, from, head, body).await,
        Ok(Caller::Nobody { too_much }) => ask_as_stranger(door, too_much, head, body).await,
        Err(answer) => return answer,
    };
    let took = started.elapsed();
    door.0.metrics.asked(kind, response.status(), took);
    tracing::info!(
        kind,
        status = response.status().as_u16(),
        ms = u64::try_from(took.as_millis()).unwrap_or(u64::MAX),
        "asked"
    );
    response
}

fn is_framed(head: &Parts) -> bool {
    head.headers
        .get(CONTENT_TYPE)
        .is_some_and(|given| given == FRAME_TYPE)
}

async fn ask_as_member(
    door: &Door,
    member: &Member,
    from: Network,
    head: &Parts,
    body: Body,
) -> (&'static str, Response) {
    // Nothing that a removed one sends is worth reading.
    if member.removed {
        door.0.metrics.refused("removed");
        return ("removed", refused(Refusal::Removed));
    }
    let _room = match door.body_room(member, from).await {
        Ok(room) => room,
        Err(answer) => return ("waiting", answer),
    };
    let most = frame::HEADER + frame::MOST_PAYLOAD;
    let asked = match bodies::read(body, most, door.pace()).await {
        Ok(body) if is_framed(head) => frame::decode::<Ask>(&body),
        Ok(_) => Err(FrameFault::Foreign),
        Err(fault) => {
            door.0.metrics.refused("slow or long body");
            Err(fault)
        }
    };
    let (kind, answer) = match asked {
        Ok(ask) => {
            if let Ask::Push(page) = &ask {
                let bytes = page.iter().map(wire::Run::bytes).sum();
                door.0.flow.note(member.device, bytes, Instant::now());
            }
            (kind(&ask), door.0.hub.answer(Some(member), ask).await)
        }
        Err(FrameFault::Version(_)) => (
            "unreadable",
            Outcome::Answer(Answer::Refused(Refusal::Version {
                oldest: OLDEST_VERSION,
                newest: NEWEST_VERSION,
            })),
        ),
        Err(_) => (
            "unreadable",
            Outcome::Answer(Answer::Refused(Refusal::OutOfBounds)),
        ),
    };
    match answer {
        Outcome::Answer(answer) => {
            door.note_full(&answer);
            (kind, framed(&answer))
        }
        Outcome::Stranger => (kind, nothing_here()),
    }
}

/// A stranger may use an invitation, and nothing else. Whoever shares a network with
/// somebody who guesses codes still gets in with a right one.
async fn ask_as_stranger(
    door: &Door,
    too_much: bool,
    head: &Parts,
    body: Body,
) -> (&'static str, Response) {
    let rules = &door.0.rules;
    let pace = Pace {
        grace: STRANGER_TIME.min(rules.body_time),
        least: 1,
        whole: STRANGER_TIME.min(rules.body_time),
    };
    let asked = match bodies::read(body, STRANGER_BODY, pace).await {
        Ok(body) if is_framed(head) => frame::decode::<Ask>(&body),
        Ok(_) => Err(FrameFault::Foreign),
        Err(fault) => Err(fault),
    };
    let Ok(ask) = asked else {
        return ("unreadable", door.unknown(too_much));
    };
    let hub = &door.0.hub;
    let kind = kind(&ask);
    match hub.knows_code_of(&ask).await {
        true => match hub.answer(None, ask).await {
            Outcome::Answer(answer) => (kind, framed(&answer)),
            Outcome::Stranger => (kind, door.unknown(too_much)),
        },
        false => (kind, door.unknown(too_much)),
    }
}

fn kind(ask: &Ask) -> &'static str {
    match ask {
        Ask::Join { .. } => "join",
        Ask::Heads { .. } => "heads",
        Ask::Push(_) => "push",
        Ask::Pull { .. } => "pull",
        Ask::Tags(_) => "tags",
        Ask::Crew => "crew",
        Ask::Invite { .. } => "invite",
        Ask::Withdraw { .. } => "withdraw",
        Ask::RemoveDevice { .. } => "remove device",
        Ask::SetRole { .. } => "set role",
        Ask::PhotosMissing { .. } => "photos missing",
        Ask::Greet { .. } => "greet",
        Ask::PushSealed(_) => "push",
        Ask::PullSealed { .. } => "pull",
        Ask::Seal { .. } => "seal",
    }
}

async fn photo(door: &Door, name: [u8; 32], head: &Parts, body: Body) -> Response {
    let started = Instant::now();
    let (member, from) = match door.admit(head).await {
        Ok(Caller::Member(member, from)) => (member, from),
        Ok(Caller::Nobody { too_much }) => return door.unknown(too_much),
        Err(answer) => return answer,
    };
    if member.removed {
        door.0.metrics.refused("removed");
        return refused(Refusal::Removed);
    }
    let response = if head.method == Method::PUT {
        put_photo(door, &member, from, name, &head.headers, body).await
    } else {
        give_photo(door, &member, name, &head.headers).await
    };
    door.0
        .metrics
        .asked("photo", response.status(), started.elapsed());
    response
}

async fn put_photo(
    door: &Door,
    member: &Member,
    from: Network,
    name: [u8; 32],
    headers: &HeaderMap,
    body: Body,
) -> Response {
    let Some((part, size)) = content_range(headers) else {
        return refused(Refusal::OutOfBounds);
    };
    let most = usize::try_from(PHOTO_PART).unwrap_or(0);
    let _room = match door.body_room(member, from).await {
        Ok(room) => room,
        Err(answer) => return answer,
    };
    let Ok(bytes) = bodies::read(body, most, door.pace()).await else {
        door.0.metrics.refused("slow or long body");
        return refused(Refusal::OutOfBounds);
    };
    door.0.flow.note(member.device, bytes.len(), Instant::now());
    // No range of bytes is empty: phones write the closing part as one byte behind the end.
    let closes = bytes.is_empty() && part.start == size;
    if !closes && bytes.len() as u64 != part.end.saturating_sub(part.start) {
        return refused(Refusal::OutOfBounds);
    }
    let arriving = Arriving {
        name,
        at: part.start,
        size,
        bytes,
    };
    let hub = &door.0.hub;
    let taken = hub
        .photos
        .take(&*hub.store, member, arriving, hub.now())
        .await;
    match taken {
        Ok(state) => {
            let answer = if state.whole {
                Vec::new()
            } else {
                vec![(name, state.have)]
            };
            framed(&Answer::PhotosMissing(answer.into()))
        }
        Err(fault) => {
            let answer = Answer::Refused(refusal(fault));
            door.note_full(&answer);
            framed(&answer)
        }
    }
}

async fn give_photo(door: &Door, member: &Member, name: [u8; 32], headers: &HeaderMap) -> Response {
    let range = match headers.get(RANGE) {
        None => None,
        Some(range) => match range.to_str().ok().and_then(byte_range) {
            Some(range) => Some(range),
            None => return refused(Refusal::OutOfBounds),
        },
    };
    let hub = &door.0.hub;
    let partial = range.is_some();
    match hub.photos.give(&*hub.store, member.crew, name, range).await {
        Ok(Some((bytes, range, size))) => {
            let mut response = Response::new(Body::from(bytes));
            let headers = response.headers_mut();
            headers.insert(
                CONTENT_TYPE,
                HeaderValue::from_static("application/octet-stream"),
            );
            headers.insert(ACCEPT_RANGES, HeaderValue::from_static("bytes"));
            if partial {
                let said = format!("bytes {}-{}/{size}", range.start, range.end - 1);
                if let Ok(said) = HeaderValue::from_str(&said) {
                    headers.insert(CONTENT_RANGE, said);
                }
                *response.status_mut() = StatusCode::PARTIAL_CONTENT;
            }
            kept_out_of_caches(response)
        }
        Ok(None) => refused(Refusal::Unknown),
        Err(fault) => refused(refusal(fault)),
    }
}

/// `bytes A-B/SIZE`, as a half-open range and the size.
fn content_range(headers: &HeaderMap) -> Option<(Range<u64>, u64)> {
    let text = headers.get(CONTENT_RANGE)?.to_str().ok()?;
    let (range, size) = text.strip_prefix("bytes ")?.split_once('/')?;
    let (first, last) = range.split_once('-')?;
    let (first, last): (u64, u64) = (first.parse().ok()?, last.parse().ok()?);
    (first <= last).then_some(())?;
    Some((first..last.checked_add(1)?, size.parse().ok()?))
}

/// `bytes=A-B` or `bytes=A-`; several ranges are not served.
fn byte_range(text: &str) -> Option<Range<u64>> {
    let (first, last) = text.strip_prefix("bytes=")?.split_once('-')?;
    let first: u64 = first.parse().ok()?;
    let end = if last.is_empty() {
        u64::MAX
    } else {
        last.parse::<u64>().ok()?.checked_add(1)?
    };
    (first < end).then_some(first..end)
}

/// What every stranger hears.
fn nothing_here() -> Response {
    kept_out_of_caches((StatusCode::NOT_FOUND, "nothing here\n").into_response())
}

fn too_many() -> Response {
    let mut response = (StatusCode::TOO_MANY_REQUESTS, "slower, please\n").into_response();
    response
        .headers_mut()
        .insert(RETRY_AFTER, HeaderValue::from_static("60"));
    kept_out_of_caches(response)
}

fn refused(refusal: Refusal) -> Response {
    framed(&Answer::Refused(refusal))
}

fn framed(answer: &Answer) -> Response {
    let status = match answer {
        Answer::Refused(refusal) => match refusal {
            Refusal::Removed => StatusCode::GONE,
            Refusal::NotAllowed | Refusal::NotYours(_) => StatusCode::FORBIDDEN,
            Refusal::Gap { .. } | Refusal::Clash(_) | Refusal::LastOwner | Refusal::OtherKey => {
                StatusCode::CONFLICT
            }
            Refusal::OutOfBounds | Refusal::Version { .. } => StatusCode::BAD_REQUEST,
            Refusal::Unknown => StatusCode::NOT_FOUND,
            Refusal::Slower(_) => StatusCode::TOO_MANY_REQUESTS,
            Refusal::Fault => StatusCode::SERVICE_UNAVAILABLE,
            Refusal::Full(_) => StatusCode::INSUFFICIENT_STORAGE,
        },
        _ => StatusCode::OK,
    };
    match frame::encode_as(answer.version(), answer) {
        Ok(bytes) => {
            let mut response = (status, bytes).into_response();
            response
                .headers_mut()
                .insert(CONTENT_TYPE, HeaderValue::from_static(FRAME_TYPE));
            kept_out_of_caches(response)
        }
        Err(fault) => {
            tracing::error!(%fault, "an answer does not fit its frame");
            StatusCode::INTERNAL_SERVER_ERROR.into_response()
        }
    }
}

fn kept_out_of_caches(mut response: Response) -> Response {
    let headers = response.headers_mut();
    headers.insert(CACHE_CONTROL, HeaderValue::from_static("no-store"));
    response
}
