//! The page as a whole.

use chrono::{Datelike, NaiveDate, Timelike};
use krilla::Document;
use krilla::image::Image;
use krilla::metadata::{DateTime, Metadata};
use krilla::page::PageSettings;
use ripening::outlook::{Event, Outlook, PerEvent};
use ripening::windows::{MoneyWindow, Standing as Open, WindowKind};
use ripening::{Band, Stage, WholeField};
use words::Words;

use crate::line;
use crate::pen::{FAINT, INK, Pen, RULE, Typefaces, WARN, Weight};
use crate::sentences::Sentences;
use crate::{Form, Paper, Sheet, SheetError, Units, map};

/// Blank around the page: what any printer leaves.
const MARGIN: f32 = 36.0;
/// Between two columns.
const GUTTER: f32 = 22.0;
/// Size of the text, and of notes.
const TEXT: f32 = 10.5;
const NOTE: f32 = 8.5;
/// Lines that the text of a window may take; no caution of the catalogue is longer.
const CAUTION_LINES: usize = 10;
/// Kept at the foot.
const FOOT: f32 = 30.0;
/// Hectares in an acre (international acre).
const HECTARES_PER_ACRE: f64 = 0.404_685_642_24;
/// Days after which a walk is called old.
const OLD: i64 = 7;

/// Draws the sheet as a PDF of one page.
///
/// # Errors
/// When the bundled font or the page cannot be used.
pub fn draw(sheet: &Sheet, form: &Form) -> Result<Vec<u8>, SheetError> {
    let say = Sentences {
        words: Words::new(form.language),
    };
    let type_ = Typefaces::bundled()?;
    let (width, height) = match form.paper {
        Paper::A4 => (595.28, 841.89),
        Paper::Letter => (612.0, 792.0),
    };
    let settings = PageSettings::from_wh(width, height)
        .ok_or_else(|| SheetError::Pdf("the page has no size".to_owned()))?;
    let mut document = Document::new();
    document.set_metadata(
        Metadata::new()
            .title(format!("{}: {}", say.words.sheet().title(), sheet.name))
            .language(form.language.folder().to_owned())
            .creator("Headwalk".to_owned())
            .creation_date(instant(sheet)),
    );
    let mut page = document.start_page_with(settings);
    let mut surface = page.surface();
    let mut on = Page {
        pen: Pen {
            on: &mut surface,
            type_: &type_,
        },
        say: &say,
        sheet,
        form,
        left: MARGIN,
        width: width - 2.0 * MARGIN,
        bottom: height - MARGIN - FOOT,
    };
    on.all();
    surface.finish();
    page.finish();
    document
        .finish()
        .map_err(|error| SheetError::Pdf(format!("{error:?}")))
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // parts of a date
fn instant(sheet: &Sheet) -> DateTime {
    let at = sheet.made_at.naive_utc();
    DateTime::new(at.year().clamp(0, 9999) as u16)
        .month(at.month() as u8)
        .day(at.day() as u8)
        .hour(at.hour() as u8)
        .minute(at.minute() as u8)
        .second(at.second() as u8)
        .utc_offset_hour(0)
        .utc_offset_minute(0)
}

struct Page<'a, 's> {
    pen: Pen<'a, 's>,
    say: &'a Sentences,
    sheet: &'a Sheet,
    form: &'a Form,
    left: f32,
    width: f32,
    /// Lower edge of what may be drawn above the foot.
    bottom: f32,
}

impl Page<'_, '_> {
    fn all(&mut self) {
        let mut y = self.head(MARGIN);
        y = self.standing(y + 12.0);
        let columns = y + 12.0;
        let half = (self.width - GUTTER) / 2.0;
        let (left, right) = (self.left, self.left + half + GUTTER);
        let shares = self.shares((left, columns), half);
        let next = self.next((right, columns), half);
        y = shares.max(next) + 12.0;
        // Below the windows there is at least room for the map.
        let least = 128.0;
        y = self.windows(y, self.bottom - least) + 12.0;
        self.below(y);
        self.foot();
    }

    fn title(&mut self, (x, y): (f32, f32), width: f32, text: &str) -> f32 {
        self.pen.text(x, y + 11.0, 12.5, Weight::Bold, INK, text);
        self.pen
            .stroke((x, y + 15.5), (x + width, y + 15.5), 0.8, RULE);
        y + 20.0
    }

    fn paragraph(
        &mut self,
        (x, y): (f32, f32),
        width: f32,
        size: f32,
        weight: Weight,
        text: &str,
        most: usize,
    ) -> f32 {
        let lines = self.pen.type_.lines(text, width, size, weight, most);
        let color = if size < TEXT { FAINT } else { INK };
        self.pen.lines((x, y), size, weight, color, &lines)
    }

    /// Name, what is known of the planting, and the day of the sheet.
    fn head(&mut self, y: f32) -> f32 {
        let say = self.say;
        let title = say.words.sheet().title();
        let day = say.words.date(self.sheet.as_of);
        let right = self.left + self.width;
        self.pen
            .text_to(right, y + 12.0, 12.0, Weight::Bold, FAINT, &title);
        self.pen
            .text_to(right, y + 26.0, TEXT, Weight::Regular, FAINT, &day);
        let room = self.width - 110.0;
        let size = if self
            .pen
            .type_
            .lines(&self.sheet.name, room, 24.0, Weight::Bold, 9)
            .len()
            > 1
        {
            15.0
        } else {
            24.0
        };
        let name = self.sheet.name.clone();
        let mut y = self.paragraph((self.left, y - 3.0), room, size, Weight::Bold, &name, 2);
        let facts = self.facts().join("  \u{b7}  ");
        y = self.paragraph(
            (self.left, y + 1.0),
            self.width,
            TEXT,
            Weight::Regular,
            &facts,
            2,
        );
        self.pen.stroke(
            (self.left, y + 4.0),
            (self.left + self.width, y + 4.0),
            1.6,
            INK,
        );
        y + 5.0
    }

    fn facts(&self) -> Vec<String> {
        let (say, sheet) = (self.say, self.sheet);
        let plantings = say.words.plantings();
        let area = sheet.hectares.map(|hectares| {
            let size = match self.form.units {
                Units::Us => hectares / HECTARES_PER_ACRE,
                Units::Metric => hectares,
            };
            match self.form.units {
                Units::Us => plantings.acres(size),
                Units::Metric => plantings.hectares(size),
            }
        });
        [
            sheet.hybrid.clone(),
            Some(say.purpose(sheet.purpose)),
            sheet
                .planted_on
                .map(|on| plantings.planted(&say.words.date(on))),
            area,
            sheet.field.clone(),
            sheet.farm.clone(),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// The sentence, the stage line, and what they rest on.
    fn standing(&mut self, y: f32) -> f32 {
        let (say, sheet) = (self.say, self.sheet);
        let sentence = sheet.walk.as_ref().map_or_else(
            || say.words.sheet().not_walked(),
            |walk| say.standing(&walk.field),
        );
        let (left, width) = (self.left, self.width);
        let mut y = self.paragraph((left, y), width, 17.0, Weight::Bold, &sentence, 2) + 5.0;
        let patterns = line::patterns(&mut self.pen);
        y = line::draw(
            &mut self.pen,
            (left, y),
            width,
            &patterns,
            sheet.walk.as_ref().map(|walk| &walk.field.position),
            &sheet.earlier,
            |stage| say.mark(stage),
        );
        let Some(walk) = &sheet.walk else {
            return y + 2.0;
        };
        let band = say.band(&walk.field.position, walk.field.level);
        y = self.paragraph((left, y + 5.0), width, 12.0, Weight::Regular, &band, 2);
        let words = say.words.sheet();
        let (heads, stops) = (f64::from(walk.heads), f64::from(walk.stops));
        let mut from = if walk.scout.is_empty() {
            words.walked(heads, stops, walk.on)
        } else {
            words.walked_by(heads, stops, walk.on, &walk.scout)
        };
        if !sheet.earlier.is_empty() {
            #[allow(clippy::cast_precision_loss)] // a few walks
            let earlier = words.earlier(sheet.earlier.len().min(4) as f64);
            from = format!("{from} {earlier}");
        }
        self.paragraph((left, y + 1.0), width, TEXT, Weight::Regular, &from, 2)
    }

    /// The shares worth a row, with their bands.
    fn shares(&mut self, (x, y): (f32, f32), width: f32) -> f32 {
        let Some(walk) = &self.sheet.walk else {
            return y;
        };
        let say = self.say;
        let mut y = self.title((x, y), width, &say.words.plantings().shares_title());
        let sheet = say.words.sheet();
        let (of, about, between) = (sheet.heads_reached(), sheet.about(), sheet.between());
        let (mid, end) = (x + 0.60 * width, x + width);
        self.pen.text(x, y + 8.0, NOTE, Weight::Regular, FAINT, &of);
        self.pen
            .text_to(mid, y + 8.0, NOTE, Weight::Regular, FAINT, &about);
        self.pen
            .text_to(end, y + 8.0, NOTE, Weight::Regular, FAINT, &between);
        y += 12.0;
        for stage in telling(&walk.field) {
            let band = *walk.field.reached.get(stage);
            let ends = match (say.words.chance(band.low), say.words.chance(band.high)) {
                (low, high) if low == high => low,
                (low, high) => format!("{low} \u{2013} {high}"),
            };
            let here = if stage == walk.field.stage {
                Weight::Bold
            } else {
                Weight::Regular
            };
            let name = say.words.capital(&say.stage(stage));
            self.pen.text(x, y + 10.0, TEXT, here, INK, &name);
            let about = say.words.chance(band.mid);
            self.pen
                .text_to(mid, y + 10.0, 12.0, Weight::Bold, INK, &about);
            self.pen.text_to(end, y + 10.0, TEXT, here, INK, &ends);
            share_bar(&mut self.pen, (x, y + 13.5), width, &band);
            y += 25.0;
        }
        let note = say.words.plantings().at_level(walk.field.level);
        self.paragraph((x, y), width, NOTE, Weight::Regular, &note, 2)
    }

    /// What comes, as spans.
    fn next(&mut self, (x, y): (f32, f32), width: f32) -> f32 {
        let say = self.say;
        let outlook_words = say.words.outlook();
        let mut y = self.title((x, y), width, &outlook_words.next());
        let this = self.sheet.as_of;
        let outlook = match &self.sheet.outlook {
            Err(why) => {
                let why = say.words.sheet().no_dates(&say.why(why));
                return self.paragraph((x, y), width, TEXT, Weight::Regular, &why, 4);
            }
            Ok(outlook) => outlook,
        };
        for (event, from, to) in ahead(outlook).into_iter().take(6) {
            let said = match to {
                Some(to) => outlook_words.event_between(&say.event(event), from, to, this),
                None => outlook_words.event_not_before(&say.event(event), from, this),
            };
            // The name stands on the left and the dates on the right.
            let (name, when) = said.split_once(": ").unwrap_or((&said, ""));
            self.pen.text(x, y + 10.0, TEXT, Weight::Regular, INK, name);
            let taken = self.pen.type_.width(name, TEXT, Weight::Regular) + 8.0;
            let lines = self
                .pen
                .type_
                .lines(when, width - taken, TEXT, Weight::Bold, 2);
            for line in &lines {
                self.pen
                    .text_to(x + width, y + 10.0, TEXT, Weight::Bold, INK, line);
                y += 14.5;
            }
        }
        let note = outlook_words.level_note();
        self.paragraph((x, y + 2.0), width, NOTE, Weight::Regular, &note, 2)
    }

    /// Windows that are near, two beside each other, each with its caution.
    fn windows(&mut self, y: f32, until: f32) -> f32 {
        let say = self.say;
        let near: Vec<&MoneyWindow> = self
            .sheet
            .windows
            .iter()
            .filter(|window| worth_saying(window))
            .collect();
        if near.is_empty() {
            return y - 12.0;
        }
        let (left, width) = (self.left, self.width);
        let mut top = self.title((left, y), width, &say.words.outlook().windows_title());
        let half = (width - GUTTER) / 2.0;
        let mut shown = 0;
        for pair in near.chunks(2) {
            let texts: Vec<Vec<(Weight, f32, Vec<String>)>> = pair
                .iter()
                .map(|window| self.window_lines(window, half - 12.0))
                .collect();
            let tall = texts
                .iter()
                .map(|parts| height_of(parts))
                .fold(0.0, f32::max);
            if top + tall + 8.0 > until && shown > 0 {
                break;
            }
            for (at, parts) in texts.iter().enumerate() {
                let x = if at == 0 { left } else { left + half + GUTTER };
                self.pen.block((x, top), (half, tall + 8.0), WARN);
                let mut y = top + 4.0;
                for (weight, size, lines) in parts {
                    y = self.pen.lines((x + 6.0, y), *size, *weight, INK, lines);
                }
            }
            shown += pair.len();
            top += tall + 14.0;
        }
        if shown < near.len() {
            #[allow(clippy::cast_precision_loss)] // a few windows
            let more = say.words.sheet().more_windows((near.len() - shown) as f64);
            top = self.paragraph((left, top - 3.0), width, NOTE, Weight::Regular, &more, 1);
        }
        top - 6.0
    }

    fn window_lines(&self, window: &MoneyWindow, width: f32) -> Vec<(Weight, f32, Vec<String>)> {
        let this = self.sheet.as_of;
        let head = self.say.window(window, this);
        let text = self.say.window_text(window, this, self.form.units);
        let lines =
            |text: &str, size, weight, most| self.pen.type_.lines(text, width, size, weight, most);
        vec![
            (Weight::Bold, TEXT, lines(&head, TEXT, Weight::Bold, 2)),
            (
                Weight::Regular,
                9.0,
                lines(&text, 9.0, Weight::Regular, CAUTION_LINES),
            ),
        ]
    }

    /// Map and pictures on the left, what is not known on the right.
    fn below(&mut self, y: f32) {
        let words = self.say.words.sheet();
        let half = (self.width - GUTTER) / 2.0;
        let places = self
            .sheet
            .walk
            .as_ref()
            .map(|walk| walk.places.clone())
            .unwrap_or_default();
        let mapped = !places.is_empty() || !self.sheet.outline.is_empty();
        let pictured = !self.sheet.photos.is_empty();
        let (left, right) = (self.left, self.left + half + GUTTER);
        let (x, width) = if mapped || pictured {
            (right, half)
        } else {
            (left, self.width)
        };
        let mut under = self.title((x, y), width, &words.unknown_title());
        for line in self.unknown() {
            if under + 1.22 * TEXT > self.bottom {
                break;
            }
            self.pen.disk((x + 3.0, under + 6.5), 1.6, INK);
            under = self.paragraph(
                (x + 11.0, under),
                width - 11.0,
                TEXT,
                Weight::Regular,
                &line,
                3,
            ) + 2.5;
        }
        if mapped {
            let top = self.title((left, y), half, &words.map_title());
            let room = self.bottom - top;
            let tall = if pictured {
                (room * 0.5).min(150.0)
            } else {
                room.min(half * 0.8)
            };
            map::draw(
                &mut self.pen,
                (left, top),
                (half, tall),
                &places,
                &self.sheet.outline,
                self.form.units,
            );
            self.photos((left, top + tall + 8.0), half);
        } else {
            self.photos((left, y), half);
        }
    }

    /// Up to three pictures in a row, as large as the room allows.
    fn photos(&mut self, (x, y): (f32, f32), width: f32) {
        let sheet = self.sheet;
        let count = sheet.photos.len().min(3);
        let tall = self.bottom - y - 12.0;
        if count == 0 || tall < 30.0 {
            return;
        }
        #[allow(clippy::cast_precision_loss)] // three at the most
        let each = (width - 6.0 * (count as f32 - 1.0)) / count as f32;
        for (at, photo) in sheet.photos.iter().take(count).enumerate() {
            let Ok(image) = Image::from_jpeg(photo.jpeg.clone().into(), true) else {
                continue;
            };
            let (w, h) = image.size();
            #[allow(clippy::cast_precision_loss)] // pixels
            let (w, h) = (w.max(1) as f32, h.max(1) as f32);
            let scale = (each / w).min(tall / h);
            #[allow(clippy::cast_precision_loss)]
            let left = x + at as f32 * (each + 6.0);
            self.pen.picture((left, y), (w * scale, h * scale), image);
            let caption = photo.caption.clone();
            self.paragraph(
                (left, y + h * scale + 1.0),
                each,
                8.0,
                Weight::Regular,
                &caption,
                1,
            );
        }
    }

    fn unknown(&self) -> Vec<String> {
        let (say, sheet) = (self.say, self.sheet);
        let words = say.words.sheet();
        let mut lines = Vec::new();
        if let Some(walk) = &sheet.walk {
            if walk.heads == 1 {
                lines.push(say.words.plantings().one_head());
            } else if walk.stops < 3 {
                lines.push(words.few_stops(f64::from(walk.stops)));
            }
            if walk.contradicts {
                lines.push(words.contradicts());
            }
            let days = (sheet.as_of - walk.on).num_days();
            if days > OLD {
                #[allow(clippy::cast_precision_loss)] // a season's days
                lines.push(words.old_walk(days as f64));
            }
            if let Some((stage, band)) = vaguest(&walk.field) {
                lines.push(say.vaguest(stage, &band));
            }
            if walk.places.is_empty() {
                lines.push(words.no_positions());
            }
        } else {
            lines.push(words.not_walked());
        }
        if let Ok(outlook) = &sheet.outlook {
            lines.push(words.weather_until(outlook.rests_on.weather_until));
        }
        if !sheet.moisture_measured {
            lines.push(words.no_moisture());
        }
        lines.push(words.one_planting());
        lines
    }

    fn foot(&mut self) {
        let words = self.say.words.sheet();
        let (x, y, width) = (self.left, self.bottom + 6.0, self.width);
        self.pen.stroke((x, y), (x + width, y), 0.8, RULE);
        let decides = words.who_decides();
        let y = self.paragraph((x, y + 3.0), width, NOTE, Weight::Regular, &decides, 2);
        let (on, by) = (self.sheet.made_at.date_naive(), &self.sheet.made_by);
        let time = self.sheet.made_at.format("%H:%M").to_string();
        let made = if by.is_empty() {
            words.made(on, &time)
        } else {
            words.made_by(on, &time, by)
        };
        self.paragraph(
            (x, y),
            width,
            NOTE,
            Weight::Regular,
            &format!("{made} \u{b7} Headwalk"),
            1,
        );
    }
}

/// A share from none to all, as a band with its middle.
fn share_bar(pen: &mut Pen, (x, y): (f32, f32), width: f32, band: &Band) {
    #[allow(clippy::cast_possible_truncation)] // 0 to 1
    let at = |share: f64| x + width * share.clamp(0.0, 1.0) as f32;
    pen.block((x, y + 1.5), (width, 2.0), RULE);
    let (low, high) = (at(band.low), at(band.high));
    let wide = (high - low).max(3.0);
    let from = low.min(x + width - wide);
    pen.block((from, y), (wide, 5.0), (0xc9, 0xa2, 0x5c));
    pen.frame((from, y), (wide, 5.0), 1.0, INK);
    pen.stroke((at(band.mid), y - 2.0), (at(band.mid), y + 7.0), 1.6, INK);
}

fn height_of(parts: &[(Weight, f32, Vec<String>)]) -> f32 {
    #[allow(clippy::cast_precision_loss)] // a few lines
    parts
        .iter()
        .map(|(_, size, lines)| 1.22 * size * lines.len() as f32)
        .sum()
}

/// Windows that may be open or lie ahead and can be dated; forage's cautions
/// where they are due.
fn worth_saying(window: &MoneyWindow) -> bool {
    match window.kind {
        WindowKind::PrussicAcid(_) | WindowKind::Nitrate(_) => window.standing == Open::MayBeOpen,
        _ => matches!(window.standing, Open::Ahead | Open::MayBeOpen) && window.span.is_some(),
    }
}

/// The events still to come that have dates: the earliest, and the latest where it is known.
fn ahead(outlook: &Outlook) -> Vec<(Event, NaiveDate, Option<NaiveDate>)> {
    let PerEvent {
        half_bloom,
        milk,
        soft_dough,
        hard_dough,
        black_layer,
        moisture_20,
        moisture_18,
        moisture_16,
        moisture_14,
    } = &outlook.events;
    [
        (Event::HalfBloom, half_bloom),
        (Event::Milk, milk),
        (Event::SoftDough, soft_dough),
        (Event::HardDough, hard_dough),
        (Event::BlackLayer, black_layer),
        (Event::Moisture20, moisture_20),
        (Event::Moisture18, moisture_18),
        (Event::Moisture16, moisture_16),
        (Event::Moisture14, moisture_14),
    ]
    .into_iter()
    .filter(|(_, dates)| dates.come < 0.9)
    .filter(|(_, dates)| dates.p90.is_none_or(|latest| latest >= outlook.as_of))
    .filter_map(|(event, dates)| Some((event, dates.p10?, dates.p90)))
    .collect()
}

/// From the last stage that every head has reached to the first that none has.
fn telling(field: &WholeField) -> Vec<Stage> {
    let last_all = Stage::ALL
        .iter()
        .rposition(|stage| field.reached.get(*stage).low > 0.985)
        .unwrap_or(0);
    let first_none = Stage::ALL
        .iter()
        .position(|stage| field.reached.get(*stage).high < 0.015)
        .unwrap_or(Stage::ALL.len() - 1);
    Stage::ALL
        .into_iter()
        .skip(last_all)
        .take((first_none + 1).saturating_sub(last_all))
        .collect()
}

/// The share of heads with the widest band, where that is wide enough to matter.
fn vaguest(field: &WholeField) -> Option<(Stage, Band)> {
    Stage::ALL
        .into_iter()
        .map(|stage| (stage, *field.reached.get(stage)))
        .max_by(|a, b| (a.1.high - a.1.low).total_cmp(&(b.1.high - b.1.low)))
        .filter(|(_, band)| band.high - band.low > 0.2)
}
