//! The stage line: where things stand on it, and how it is drawn.

use krilla::paint::Pattern;
use ripening::{Band, Stage};

use crate::pen::{Color, FAINT, INK, Pen, RULE, Weight};

/// Heat units (base 50 F, cap 100 F) from half bloom to each mark: soft dough on
/// after a university table (K-State eUpdate 661, 2025), boot from the same
/// table, heading and milk the app's own reckoning. As the screens have them.
const HEAT: [f64; 7] = [-250.0, -100.0, 0.0, 130.0, 297.0, 747.0, 1107.0];

/// The published 0-9 scale numbers five of the marks; between them it is linear
/// in heat.
const NUMBERED: [(f64, f64); 5] = [
    (5.0, HEAT[0]),
    (6.0, HEAT[2]),
    (7.0, HEAT[4]),
    (8.0, HEAT[5]),
    (9.0, HEAT[6]),
];

/// Grain from pale to dark, one for each stage.
const GRAIN: [Color; 7] = [
    (0xf8, 0xf1, 0xd4),
    (0xec, 0xe0, 0xb0),
    (0xde, 0xc5, 0x83),
    (0xc9, 0xa2, 0x5c),
    (0xa9, 0x77, 0x3c),
    (0x74, 0x47, 0x21),
    (0x2a, 0x16, 0x0a),
];
const ON_PALE: Color = (0x2a, 0x16, 0x0a);
const ON_DARK: Color = (0xf8, 0xf1, 0xd4);

/// Narrower than this a band would look like a dot.
const NARROWEST: f32 = 6.0;

/// Heat from half bloom of a position on the 0-9 scale, held to the line's ends.
pub fn heat_at(position: f64) -> f64 {
    for pair in NUMBERED.windows(2) {
        if let [(from, from_heat), (to, to_heat)] = pair
            && position <= *to
        {
            let part = ((position - from) / (to - from)).max(0.0);
            return from_heat + part * (to_heat - from_heat);
        }
    }
    HEAT[6]
}

fn part_of_heat(heat: f64) -> f32 {
    let part = (heat - HEAT[0]) / (HEAT[6] - HEAT[0]);
    #[allow(clippy::cast_possible_truncation)] // between 0 and 1
    let part = part.clamp(0.0, 1.0) as f32;
    part
}

/// Where a position is among the marks, for a sentence.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Whereabouts {
    At(Stage),
    Past(Stage),
    HalfwayTo(Stage),
    Nearing(Stage),
}

/// Puts a position into words' shape, as the screens do.
pub fn whereabouts(position: f64) -> Whereabouts {
    let heat = heat_at(position);
    let at = HEAT
        .iter()
        .rposition(|mark| *mark <= heat)
        .unwrap_or_default();
    let stage = Stage::ALL[at];
    let (Some(next), Some(to)) = (Stage::ALL.get(at + 1), HEAT.get(at + 1)) else {
        return Whereabouts::At(stage);
    };
    let part = (heat - HEAT[at]) / (to - HEAT[at]);
    if part < 0.12 {
        Whereabouts::At(stage)
    } else if part < 0.4 {
        Whereabouts::Past(stage)
    } else if part < 0.65 {
        Whereabouts::HalfwayTo(*next)
    } else {
        Whereabouts::Nearing(*next)
    }
}

/// One pattern for each stretch, as on the screens.
pub fn patterns(pen: &mut Pen) -> Vec<Pattern> {
    (0..7).map(|stage| pattern(pen, stage)).collect()
}

fn pattern(pen: &mut Pen, stage: usize) -> Pattern {
    let ground = GRAIN[stage];
    let size = [8.0, 4.5, 6.0, 6.0, 6.5, 6.0, 6.0][stage];
    pen.pattern(size, |pen| {
        pen.block((0.0, 0.0), (size, size), ground);
        let half = size / 2.0;
        match stage {
            1 => pen.stroke((half, 0.0), (half, size), 0.7, ON_PALE),
            2 => {
                pen.stroke((1.5, 2.0), (3.0, 4.2), 0.8, ON_PALE);
                pen.stroke((3.0, 4.2), (4.5, 2.0), 0.8, ON_PALE);
            }
            3 => {
                pen.disk((half, half), 1.9, ON_PALE);
                pen.disk((half, half), 1.1, ground);
            }
            4 => {
                // Beyond the edges, so that the tiles join.
                pen.stroke((-1.0, size + 1.0), (size + 1.0, -1.0), 0.9, ON_DARK);
                pen.stroke((-1.0, 1.0), (1.0, -1.0), 0.9, ON_DARK);
                pen.stroke(
                    (size - 1.0, size + 1.0),
                    (size + 1.0, size - 1.0),
                    0.9,
                    ON_DARK,
                );
            }
            5 => {
                pen.stroke((0.0, 0.0), (size, size), 0.8, ON_DARK);
                pen.stroke((size, 0.0), (0.0, size), 0.8, ON_DARK);
            }
            6 => pen.disk((half, half), 0.9, ON_DARK),
            _ => {}
        }
    })
}

/// Draws the line with its band, earlier walks and words; returns the bottom edge.
pub fn draw(
    pen: &mut Pen,
    (x, y): (f32, f32),
    width: f32,
    patterns: &[Pattern],
    band: Option<&Band>,
    earlier: &[Band],
    word: impl Fn(Stage) -> String,
) -> f32 {
    let place = |heat: f64| x + width * part_of_heat(heat);
    let span = |band: &Band| {
        let (low, high) = (place(heat_at(band.low)), place(heat_at(band.high)));
        let wide = (high - low).max(NARROWEST);
        let from = low.min(x + width - wide).max(x);
        (from, wide)
    };
    let stretch = |pen: &mut Pen, top: f32, high: f32, from: f32, to: f32| {
        for (at, pattern) in patterns.iter().enumerate().take(6) {
            let (left, right) = (place(HEAT[at]).max(from), place(HEAT[at + 1]).min(to));
            if right > left {
                pen.patterned((left, top), (right - left, high), pattern);
            }
        }
    };
    let (top, high) = (y + 10.0, 14.0);
    stretch(pen, top, high, x, x + width);
    pen.frame((x, top), (width, high), 0.8, RULE);
    for heat in HEAT {
        pen.stroke(
            (place(heat), top - 2.0),
            (place(heat), top + high + 3.0),
            1.0,
            RULE,
        );
    }
    if let Some(band) = band {
        let (from, wide) = span(band);
        pen.block((from - 1.5, y + 1.5), (wide + 3.0, 31.0), (255, 255, 255));
        stretch(pen, y + 3.0, 28.0, from, from + wide);
        pen.frame((from, y + 3.0), (wide, 28.0), 2.0, INK);
        let mid = place(heat_at(band.mid)).clamp(from + 1.0, from + wide - 1.0);
        pen.stroke((mid, y), (mid, y + 34.0), 5.0, (255, 255, 255));
        pen.stroke((mid, y), (mid, y + 34.0), 2.4, INK);
    }
    let mut below = y + 37.0;
    for (age, past) in earlier.iter().rev().take(4).enumerate() {
        let (from, wide) = span(past);
        let faint = [
            FAINT,
            (0x7a, 0x6a, 0x55),
            (0x9c, 0x8d, 0x78),
            (0xbc, 0xb0, 0x9d),
        ][age];
        pen.block((from, below), (wide, 2.4), faint);
        below += 4.6;
    }
    words(pen, (x, below), width, place, word)
}

/// The marks' words, in as many rows as it takes that none covers another.
fn words(
    pen: &mut Pen,
    (x, y): (f32, f32),
    width: f32,
    place: impl Fn(f64) -> f32,
    word: impl Fn(Stage) -> String,
) -> f32 {
    const SIZE: f32 = 8.5;
    let mut ends: Vec<f32> = Vec::new();
    for stage in Stage::ALL {
        let text = word(stage);
        let wide = pen.type_.width(&text, SIZE, Weight::Regular);
        let left = (place(HEAT[stage.index()]) - wide / 2.0).clamp(x, x + width - wide);
        let row = ends
            .iter()
            .position(|end| end + 4.0 <= left)
            .unwrap_or(ends.len());
        if row == ends.len() {
            ends.push(0.0);
        }
        ends[row] = left + wide;
        #[allow(clippy::cast_precision_loss)] // a few rows
        let base = y + 9.0 + 10.0 * row as f32;
        pen.text(left, base, SIZE, Weight::Regular, FAINT, &text);
    }
    #[allow(clippy::cast_precision_loss)]
    let rows = ends.len() as f32;
    y + 3.0 + 10.0 * rows
}
