//! Text and shapes on the page, in points from its upper left corner.

use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Point, Rect, Size, Transform};
use krilla::image::Image;
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, FillRule, Pattern, Stroke};
use krilla::surface::Surface;
use krilla::text::{Font, TextDirection};
use rustybuzz::{Face, UnicodeBuffer};

use crate::SheetError;

/// A color, red, green and blue.
pub type Color = (u8, u8, u8);

/// Text and lines.
pub const INK: Color = (0x1d, 0x12, 0x08);
/// What matters less; still 7:1 on white.
pub const FAINT: Color = (0x51, 0x41, 0x2e);
/// Rules between parts.
pub const RULE: Color = (0xb9, 0xa8, 0x86);
/// Behind cautions.
pub const WARN: Color = (0xfb, 0xec, 0xd4);

/// Weight of the letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    Regular,
    Bold,
}

struct Typeface {
    font: Font,
    face: Face<'static>,
}

impl Typeface {
    fn of(bytes: &'static [u8]) -> Result<Typeface, SheetError> {
        Ok(Typeface {
            font: Font::new(bytes.into(), 0).ok_or(SheetError::Font)?,
            face: Face::from_slice(bytes, 0).ok_or(SheetError::Font)?,
        })
    }
}

/// The two weights of the bundled font.
pub struct Typefaces {
    regular: Typeface,
    bold: Typeface,
}

impl Typefaces {
    pub fn bundled() -> Result<Typefaces, SheetError> {
        Ok(Typefaces {
            regular: Typeface::of(include_bytes!("../fonts/SourceSans3-Regular.ttf"))?,
            bold: Typeface::of(include_bytes!("../fonts/SourceSans3-Bold.ttf"))?,
        })
    }

    fn get(&self, weight: Weight) -> &Typeface {
        match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
        }
    }

    /// The text with a question mark for every letter that the font has not, and
    /// a blank for what is no letter at all.
    pub fn printable(&self, text: &str) -> String {
        text.chars()
            .map(|letter| {
                if letter.is_control() || letter.is_whitespace() {
                    ' '
                } else if self.regular.face.glyph_index(letter).is_some() {
                    letter
                } else {
                    '?'
                }
            })
            .collect()
    }

    /// Width of a line of text.
    pub fn width(&self, text: &str, size: f32, weight: Weight) -> f32 {
        let face = &self.get(weight).face;
        let mut buffer = UnicodeBuffer::new();
        buffer.push_str(text);
        buffer.guess_segment_properties();
        let units: i32 = rustybuzz::shape(face, &[], buffer)
            .glyph_positions()
            .iter()
            .map(|position| position.x_advance)
            .sum();
        #[allow(clippy::cast_precision_loss)] // font units of one line
        let units = units as f32;
        #[allow(clippy::cast_precision_loss)]
        let per_em = face.units_per_em() as f32;
        units * size / per_em
    }

    /// The text in lines no wider than `width`, at most `most` of them; a word
    /// that is too long for a line is broken, and what does not fit ends in dots.
    pub fn lines(
        &self,
        text: &str,
        width: f32,
        size: f32,
        weight: Weight,
        most: usize,
    ) -> Vec<String> {
        let text = self.printable(text);
        let fits = |line: &str| self.width(line, size, weight) <= width;
        let mut lines: Vec<String> = Vec::new();
        let mut line = String::new();
        for word in text.split(' ').filter(|word| !word.is_empty()) {
            let longer = if line.is_empty() {
                word.to_owned()
            } else {
                format!("{line} {word}")
            };
            if fits(&longer) {
                line = longer;
                continue;
            }
            if !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            for letter in word.chars() {
                line.push(letter);
                if !fits(&line) && line.chars().count() > 1 {
                    line.pop();
                    lines.push(std::mem::replace(&mut line, letter.to_string()));
                }
            }
        }
        if !line.is_empty() {
            lines.push(line);
        }
        if lines.len() > most {
            lines.truncate(most);
            if let Some(last) = lines.last_mut() {
                while !fits(&format!("{last}\u{2026}")) && last.pop().is_some() {}
                last.push('\u{2026}');
            }
        }
        lines
    }
}

/// Draws on one surface.
pub struct Pen<'a, 's> {
    pub on: &'a mut Surface<'s>,
    pub type_: &'a Typefaces,
}

impl Pen<'_, '_> {
    fn fill(&mut self, color: Color) {
        self.on.set_stroke(None);
        self.on.set_fill(Some(filled(color)));
    }

    /// One line of text; `y` is its base.
    pub fn text(&mut self, x: f32, y: f32, size: f32, weight: Weight, color: Color, text: &str) {
        let text = self.type_.printable(text);
        self.fill(color);
        let font = self.type_.get(weight).font.clone();
        self.on.draw_text(
            Point::from_xy(x, y),
            font,
            size,
            &text,
            false,
            TextDirection::LeftToRight,
        );
    }

    /// One line of text that ends at `x`.
    pub fn text_to(&mut self, x: f32, y: f32, size: f32, weight: Weight, color: Color, text: &str) {
        let width = self.type_.width(&self.type_.printable(text), size, weight);
        self.text(x - width, y, size, weight, color, text);
    }

    /// Lines one below the other from the top edge `y` on; returns the bottom edge.
    pub fn lines(
        &mut self,
        (x, y): (f32, f32),
        size: f32,
        weight: Weight,
        color: Color,
        lines: &[String],
    ) -> f32 {
        let mut y = y;
        for line in lines {
            self.text(x, y + 0.95 * size, size, weight, color, line);
            y += 1.22 * size;
        }
        y
    }

    /// A filled rectangle.
    pub fn block(&mut self, (x, y): (f32, f32), (width, height): (f32, f32), color: Color) {
        self.fill(color);
        if let Some(path) = rectangle(x, y, width, height) {
            self.on.draw_path(&path);
        }
    }

    /// A rectangle filled with a pattern.
    pub fn patterned(
        &mut self,
        (x, y): (f32, f32),
        (width, height): (f32, f32),
        pattern: &Pattern,
    ) {
        self.on.set_stroke(None);
        self.on.set_fill(Some(Fill {
            paint: pattern.clone().into(),
            opacity: NormalizedF32::ONE,
            rule: FillRule::NonZero,
        }));
        if let Some(path) = rectangle(x, y, width, height) {
            self.on.draw_path(&path);
        }
    }

    /// The edge of a rectangle.
    pub fn frame(
        &mut self,
        (x, y): (f32, f32),
        (width, height): (f32, f32),
        thick: f32,
        color: Color,
    ) {
        if let Some(path) = rectangle(x, y, width, height) {
            self.outline(&path, thick, color);
        }
    }

    /// A straight line.
    pub fn stroke(&mut self, from: (f32, f32), to: (f32, f32), thick: f32, color: Color) {
        let mut path = PathBuilder::new();
        path.move_to(from.0, from.1);
        path.line_to(to.0, to.1);
        if let Some(path) = path.finish() {
            self.outline(&path, thick, color);
        }
    }

    /// Lines through points, closed.
    pub fn ring(&mut self, points: &[(f32, f32)], thick: f32, color: Color) {
        let mut path = PathBuilder::new();
        for (at, (x, y)) in points.iter().enumerate() {
            if at == 0 {
                path.move_to(*x, *y);
            } else {
                path.line_to(*x, *y);
            }
        }
        path.close();
        if let Some(path) = path.finish() {
            self.outline(&path, thick, color);
        }
    }

    /// A filled disk.
    pub fn disk(&mut self, (x, y): (f32, f32), radius: f32, color: Color) {
        // Four curves, within three parts in ten thousand of a circle.
        let bend = 0.552_285 * radius;
        let mut path = PathBuilder::new();
        path.move_to(x + radius, y);
        for (dx, dy) in [(1.0_f32, 0.0_f32), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)] {
            // A quarter turn on from (dx, dy).
            let (ex, ey) = (-dy, dx);
            path.cubic_to(
                x + dx * radius + ex * bend,
                y + dy * radius + ey * bend,
                x + ex * radius + dx * bend,
                y + ey * radius + dy * bend,
                x + ex * radius,
                y + ey * radius,
            );
        }
        path.close();
        self.fill(color);
        if let Some(path) = path.finish() {
            self.on.draw_path(&path);
        }
    }

    /// A picture.
    pub fn picture(&mut self, (x, y): (f32, f32), (width, height): (f32, f32), image: Image) {
        let Some(size) = Size::from_wh(width, height) else {
            return;
        };
        self.on.push_transform(&Transform::from_translate(x, y));
        self.on.draw_image(image, size);
        self.on.pop();
    }

    fn outline(&mut self, path: &Path, thick: f32, color: Color) {
        self.on.set_fill(None);
        self.on.set_stroke(Some(Stroke {
            paint: rgb::Color::new(color.0, color.1, color.2).into(),
            width: thick,
            ..Stroke::default()
        }));
        self.on.draw_path(path);
    }

    /// A pattern that repeats every so many points.
    pub fn pattern(&mut self, size: f32, content: impl FnOnce(&mut Pen)) -> Pattern {
        let mut builder = self.on.stream_builder();
        let mut surface = builder.surface();
        content(&mut Pen {
            on: &mut surface,
            type_: self.type_,
        });
        surface.finish();
        Pattern {
            stream: builder.finish(),
            transform: Transform::identity(),
            width: size,
            height: size,
        }
    }
}

fn filled(color: Color) -> Fill {
    Fill {
        paint: rgb::Color::new(color.0, color.1, color.2).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::NonZero,
    }
}

fn rectangle(x: f32, y: f32, width: f32, height: f32) -> Option<Path> {
    let mut path = PathBuilder::new();
    path.push_rect(Rect::from_xywh(x, y, width, height)?);
    path.finish()
}
