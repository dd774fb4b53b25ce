//! The way to a hub over HTTP.

use crate::meet::Way;
use crate::trouble::Trouble;
use std::ops::Range;
use std::sync::Arc;
use std::time::Duration;
use ureq::http::{StatusCode, Uri};
use ureq::tls::{Certificate, PemItem, RootCerts, TlsConfig, parse_pem};
use ureq::{Agent, Body, http};
use wire::code::Token;
use wire::frame::{self, FrameFault};
use wire::{Answer, Ask, PHOTO_PART};

const FRAME_TYPE: &str = "application/vnd.headwalk.exchange";
const CONNECT_TIME: Duration = Duration::from_secs(10);
const WHOLE_TIME: Duration = Duration::from_secs(60);

/// Whose certificates a hub may show.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub enum Trust {
    /// Those of the public authorities.
    #[default]
    Public,
    /// Only these, PEM: for a hub with a certificate of its own.
    Only(String),
}

/// A hub at an address.
pub struct HttpWay {
    agent: Agent,
    address: String,
    token: Option<Token>,
}

impl HttpWay {
    /// A way to the hub at `address`, such as `https://hub.example:8443`.
    ///
    /// # Errors
    /// When the address is none, or would send the token in the clear.
    pub fn new(address: &str, trust: &Trust, token: Option<Token>) -> Result<Self, Trouble> {
        Self::within(WHOLE_TIME, address, trust, token)
    }

    /// The same, for a hub that gets `time` for one question and its answer altogether.
    ///
    /// # Errors
    /// As [`HttpWay::new`].
    pub fn within(
        time: Duration,
        address: &str,
        trust: &Trust,
        token: Option<Token>,
    ) -> Result<Self, Trouble> {
        let address = check_address(address)?;
        let tls = TlsConfig::builder().root_certs(roots(trust)?).build();
        let agent = Agent::config_builder()
            .http_status_as_error(false)
            .max_redirects(0)
            .proxy(None)
            .user_agent("headwalk")
            .timeout_connect(Some(CONNECT_TIME))
            .timeout_global(Some(time))
            .tls_config(tls)
            .build()
            .new_agent();
        Ok(Self {
            agent,
            address,
            token,
        })
    }

    fn bearer(&self) -> Option<String> {
        let token = self.token.as_ref()?;
        Some(format!("Bearer {}", token.to_text()))
    }

    /// Sends the part of a photo that starts at `at`. Answers how many bytes of it
    /// the hub holds then; `None` when it holds the whole.
    ///
    /// # Errors
    /// See [`Trouble`].
    pub fn send_photo(
        &mut self,
        name: &str,
        at: u64,
        size: u64,
        bytes: &[u8],
    ) -> Result<Option<u64>, Trouble> {
        let last = at + (bytes.len() as u64).max(1) - 1;
        let mut request = self
            .agent
            .put(format!("{}/photos/{name}", self.address))
            .header("content-range", format!("bytes {at}-{last}/{size}"));
        if let Some(bearer) = self.bearer() {
            request = request.header("authorization", bearer);
        }
        let response = request.send(bytes).map_err(trouble)?;
        match read_frame(response)? {
            Answer::PhotosMissing(missing) => Ok(missing.first().map(|(_, have)| *have)),
            Answer::Refused(refusal) => Err(refusal.into()),
            _ => Err(Trouble::Nonsense),
        }
    }

    /// Fetches part of a photo, and the size of the whole.
    ///
    /// # Errors
    /// See [`Trouble`].
    pub fn fetch_photo(
        &mut self,
        name: &str,
        range: Range<u64>,
    ) -> Result<(Vec<u8>, u64), Trouble> {
        let last = range.end.max(1) - 1;
        let mut request = self
            .agent
            .get(format!("{}/photos/{name}", self.address))
            .header("range", format!("bytes={}-{last}", range.start));
        if let Some(bearer) = self.bearer() {
            request = request.header("authorization", bearer);
        }
        let mut response = request.call().map_err(trouble)?;
        if response.status() != StatusCode::PARTIAL_CONTENT {
            return match read_frame(response)? {
                Answer::Refused(refusal) => Err(refusal.into()),
                _ => Err(Trouble::Nonsense),
            };
        }
        let said = response
            .headers()
            .get("content-range")
            .and_then(|said| said.to_str().ok())
            .map(str::to_owned);
        let size = said
            .and_then(|said| {
                said.rsplit_once('/')
                    .and_then(|(_, size)| size.parse().ok())
            })
            .ok_or(Trouble::Nonsense)?;
        let bytes = response
            .body_mut()
            .with_config()
            .limit(PHOTO_PART)
            .read_to_vec()
            .map_err(trouble)?;
        Ok((bytes, size))
    }
}

impl Way for HttpWay {
    fn ask(&mut self, ask: &Ask) -> Result<Answer, Trouble> {
        let body = frame::encode_as(ask.version(), ask).map_err(|_| Trouble::Nonsense)?;
        let mut request = self
            .agent
            .post(format!("{}/exchange", self.address))
            .content_type(FRAME_TYPE);
        if let Some(bearer) = self.bearer() {
            request = request.header("authorization", bearer);
        }
        read_frame(request.send(&body[..]).map_err(trouble)?)
    }
}

fn read_frame(mut response: http::Response<Body>) -> Result<Answer, Trouble> {
    let framed = response
        .headers()
        .get("content-type")
        .is_some_and(|kind| kind == FRAME_TYPE);
    if !framed {
        return Err(match response.status() {
            StatusCode::TOO_MANY_REQUESTS => Trouble::Slower(60),
            status if status.is_server_error() => Trouble::HubFault,
            _ => Trouble::NotLetIn,
        });
    }
    let most = frame::HEADER + frame::MOST_PAYLOAD;
    let bytes = response
        .body_mut()
        .with_config()
        .limit(most as u64)
        .read_to_vec()
        .map_err(trouble)?;
    frame::decode(&bytes).map_err(|fault| match fault {
        FrameFault::Version(version) => Trouble::Version {
            oldest: version,
            newest: version,
        },
        _ => Trouble::Cut,
    })
}

fn check_address(address: &str) -> Result<String, Trouble> {
    let bad = |why: &str| Trouble::BadAddress(format!("{address}: {why}"));
    let uri: Uri = address
        .trim()
        .parse()
        .map_err(|_| bad("this is no web address"))?;
    let host = uri.host().ok_or_else(|| bad("the address names no host"))?;
    if uri.path().len() > 1 || uri.query().is_some() {
        return Err(bad("give the hub's address without a path"));
    }
    if uri
        .authority()
        .is_some_and(|named| named.as_str().contains('@'))
    {
        return Err(bad("an address holds no user name"));
    }
    match uri.scheme_str() {
        Some("https") => {}
        Some("http") if is_this_machine(host) => {}
        Some("http") => return Err(bad("a hub on another machine is reached by https")),
        _ => return Err(bad("the address starts with https://")),
    }
    Ok(address.trim().trim_end_matches('/').to_owned())
}

fn is_this_machine(host: &str) -> bool {
    let host = host.trim_start_matches('[').trim_end_matches(']');
    host == "localhost"
        || host
            .parse::<std::net::IpAddr>()
            .is_ok_and(|address| address.is_loopback())
}

fn roots(trust: &Trust) -> Result<RootCerts, Trouble> {
    let pem = match trust {
        Trust::Public => return Ok(RootCerts::WebPki),
        Trust::Only(pem) => pem,
    };
    let certificates: Vec<Certificate<'static>> = parse_pem(pem.as_bytes())
        .filter_map(|item| match item {
            Ok(PemItem::Certificate(certificate)) => Some(certificate),
            _ => None,
        })
        .collect();
    if certificates.is_empty() {
        return Err(Trouble::NotTrusted("there is no certificate in it".into()));
    }
    Ok(RootCerts::Specific(Arc::new(certificates)))
}

fn trouble(error: ureq::Error) -> Trouble {
    match error {
        ureq::Error::Tls(why) => Trouble::NotTrusted(why.to_owned()),
        ureq::Error::Rustls(error) => Trouble::NotTrusted(error.to_string()),
        ureq::Error::BodyExceedsLimit(_) => Trouble::Nonsense,
        error => Trouble::NoSignal(error.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tokens_never_cross_a_network_in_the_clear() {
        for good in [
            "https://hub.example",
            "https://hub.example:8443/",
            "http://127.0.0.1:8080",
            "http://[::1]:8080",
            "http://localhost:1",
        ] {
            assert!(check_address(good).is_ok(), "{good}");
        }
        for bad in [
            "http://hub.example",
            "http://192.0.2.7:80",
            "hub.example",
            "ftp://hub.example",
            "https://hub.example/path",
            "https://user@hub.example",
            "",
            "http://127.0.0.1.example",
        ] {
            assert!(check_address(bad).is_err(), "{bad}");
        }
    }
}
