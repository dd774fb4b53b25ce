//! An invitation as text and as a QR code.

use crate::trouble::Trouble;
use qrcode::render::svg;
use qrcode::{Color, EcLevel, QrCode};
use serde::{Deserialize, Serialize};
use wire::code;

/// Address and code.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JoinLink {
    /// Of the hub.
    pub address: String,
    /// Without its dashes.
    pub code: String,
}

const MARK: &str = "/#join=";

impl JoinLink {
    /// As it is sent or shown. The code stands behind `#`, which no browser sends
    /// to a server, so that it does not end in anybody's log.
    #[must_use]
    pub fn to_text(&self) -> String {
        format!("{}{MARK}{}", self.address, code::spell(&self.code))
    }

    /// From a link, or from a code alone when the address is known.
    ///
    /// # Errors
    /// [`Trouble::BadAddress`] when it is neither.
    pub fn read(text: &str, address: Option<&str>) -> Result<Self, Trouble> {
        let (address, typed) = match (text.trim().split_once(MARK), address) {
            (Some((address, code)), _) => (address, code),
            (None, Some(address)) => (address, text),
            (None, None) => {
                return Err(Trouble::BadAddress(
                    "give the whole link of the invitation, or the hub's address with the code"
                        .into(),
                ));
            }
        };
        let code = code::read_code(typed).ok_or_else(|| {
            Trouble::BadAddress("this is no code: it has 20 letters and digits".into())
        })?;
        Ok(Self {
            address: address.trim().trim_end_matches('/').to_owned(),
            code,
        })
    }
}

/// A QR code to be drawn: dark squares of a grid, the quiet zone not counted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Qr {
    /// Squares on a side.
    pub side: u32,
    /// The dark squares as an SVG path, a square one unit wide.
    pub path: String,
}

/// A text as a QR code (ISO/IEC 18004).
///
/// # Errors
/// When the text is too long for one.
pub fn qr(text: &str) -> Result<Qr, Trouble> {
    let code = encode(text)?;
    let side = code.width();
    let mut path = String::new();
    for (place, color) in code.to_colors().into_iter().enumerate() {
        if color == Color::Dark {
            path.push_str(&format!("M{} {}h1v1h-1z", place % side, place / side));
        }
    }
    Ok(Qr {
        side: u32::try_from(side).unwrap_or_default(),
        path,
    })
}

fn encode(text: &str) -> Result<QrCode, Trouble> {
    QrCode::with_error_correction_level(text, EcLevel::M)
        .map_err(|_| Trouble::BadAddress("the link is too long for a QR code".into()))
}

/// A text as a QR code (ISO/IEC 18004), an SVG drawing in black and white.
///
/// # Errors
/// When the text is too long for one.
pub fn qr_svg(text: &str) -> Result<String, Trouble> {
    Ok(encode(text)?
        .render::<svg::Color>()
        .min_dimensions(240, 240)
        .quiet_zone(true)
        .build())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_link_comes_back_however_it_is_typed() {
        let link = JoinLink {
            address: "https://hub.example:8447".into(),
            code: "0123456789ABCDEFGHJK".into(),
        };
        assert_eq!(
            link.to_text(),
            "https://hub.example:8447/#join=01234-56789-ABCDE-FGHJK"
        );
        assert_eq!(JoinLink::read(&link.to_text(), None), Ok(link.clone()));
        let typed = " oi234 56789-abcde fghjk ";
        assert_eq!(
            JoinLink::read(typed, Some("https://hub.example:8447/")),
            Ok(link)
        );
        for wrong in [
            "",
            "01234",
            "https://hub.example/#join=",
            "not a code at all!",
        ] {
            assert!(JoinLink::read(wrong, None).is_err(), "{wrong}");
            assert!(JoinLink::read(wrong, Some("https://h")).is_err(), "{wrong}");
        }
    }

    #[test]
    fn a_qr_code_is_drawn() {
        let svg = qr_svg("https://hub.example:8447/#join=01234-56789-ABCDE-FGHJK");
        assert!(svg.is_ok_and(|svg| svg.contains("<svg") && svg.contains("path")));
        assert!(qr_svg(&"x".repeat(5_000)).is_err());
        // Version 1 has 21 squares on a side, and the corner of a finder is dark.
        let small = qr("HEADWALK").map(|qr| (qr.side, qr.path.starts_with("M0 0h1")));
        assert_eq!(small, Ok((21, true)));
    }
}
