//! The page as a whole.

use chrono::{Datelike, Timelike};
use krilla::Document;
use krilla::image::Image;
use krilla::metadata::{DateTime, Metadata};
use krilla::page::PageSettings;
use ripening::outlook::{Event, EventDates, Outlook, PerEvent};
use ripening::windows::{MoneyWindow, Standing as Open, WindowKind};
use ripening::{Band, Stage, WholeField};

use crate::line::{self, whereabouts};
use crate::pen::{FAINT, INK, Pen, RULE, Typefaces, WARN, Weight};
use crate::words::{self, Standing, Words, capital, hundredths};
use crate::{Form, Paper, Sheet, SheetError, Units, map};

/// Blank around the page: what any printer leaves.
const MARGIN: f32 = 36.0;
/// Between two columns.
const GUTTER: f32 = 22.0;
/// Size of the text, and of notes.
const TEXT: f32 = 10.5;
const NOTE: f32 = 8.5;
/// Kept at the foot.
const FOOT: f32 = 30.0;
/// Hectares in an acre (international acre).
const HECTARES_PER_ACRE: f64 = 0.404_685_642_24;
/// Days after which a walk is called old.
const OLD: i64 = 7;
/// From this chance on a stage is called without its runner-up, as on the screens.
const SURE: f64 = 0.9;

/// Draws the sheet as a PDF of one page.
///
/// # Errors
/// When the bundled font or the page cannot be used.
pub fn draw(sheet: &Sheet, form: &Form) -> Result<Vec<u8>, SheetError> {
    let say = words::of(form.language);
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
            .title(format!("{}: {}", say.sheet(), sheet.name))
            .language(say.tag().to_owned())
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
        say,
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
    say: &'a dyn Words,
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
        let day = say.date(self.sheet.as_of);
        let right = self.left + self.width;
        self.pen
            .text_to(right, y + 12.0, 12.0, Weight::Bold, FAINT, say.sheet());
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
        let area = sheet.hectares.map(|hectares| {
            let size = match self.form.units {
                Units::Us => hectares / HECTARES_PER_ACRE,
                Units::Metric => hectares,
            };
            let rounded = (size * 10.0).round() / 10.0;
            say.area(&rounded.to_string(), self.form.units)
        });
        [
            sheet.hybrid.clone(),
            Some(say.purpose(sheet.purpose).to_owned()),
            sheet.planted_on.map(|on| say.planted(&say.date(on))),
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
            || say.not_walked().to_owned(),
            |walk| say.standing(standing(&walk.field)),
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
        let Band { low, high, .. } = walk.field.position;
        let band = say.band(whereabouts(low), whereabouts(high), walk.field.level);
        y = self.paragraph((left, y + 5.0), width, 12.0, Weight::Regular, &band, 2);
        let mut from = say.from(walk.heads, walk.stops, &say.date(walk.on), &walk.scout);
        if !sheet.earlier.is_empty() {
            from = format!("{from} {}", say.earlier(sheet.earlier.len().min(4)));
        }
        self.paragraph((left, y + 1.0), width, TEXT, Weight::Regular, &from, 2)
    }

    /// The shares worth a row, with their bands.
    fn shares(&mut self, (x, y): (f32, f32), width: f32) -> f32 {
        let Some(walk) = &self.sheet.walk else {
            return y;
        };
        let say = self.say;
        let mut y = self.title((x, y), width, say.shares_title());
        let [of, about, between] = say.shares_head();
        let (mid, end) = (x + 0.60 * width, x + width);
        self.pen.text(x, y + 8.0, NOTE, Weight::Regular, FAINT, of);
        self.pen
            .text_to(mid, y + 8.0, NOTE, Weight::Regular, FAINT, about);
        self.pen
            .text_to(end, y + 8.0, NOTE, Weight::Regular, FAINT, between);
        y += 12.0;
        for stage in telling(&walk.field) {
            let band = *walk.field.reached.get(stage);
            let ends = match (hundredths(band.low), hundredths(band.high)) {
                (low, high) if low == high => low.to_string(),
                (low, high) => format!("{low} \u{2013} {high}"),
            };
            let here = if stage == walk.field.stage {
                Weight::Bold
            } else {
                Weight::Regular
            };
            let name = capital(say.stage(stage));
            self.pen.text(x, y + 10.0, TEXT, here, INK, &name);
            let about = hundredths(band.mid).to_string();
            self.pen
                .text_to(mid, y + 10.0, 12.0, Weight::Bold, INK, &about);
            self.pen.text_to(end, y + 10.0, TEXT, here, INK, &ends);
            share_bar(&mut self.pen, (x, y + 13.5), width, &band);
            y += 25.0;
        }
        let note = say.shares_note(walk.field.level);
        self.paragraph((x, y), width, NOTE, Weight::Regular, &note, 2)
    }

    /// What comes, as spans.
    fn next(&mut self, (x, y): (f32, f32), width: f32) -> f32 {
        let say = self.say;
        let mut y = self.title((x, y), width, say.next_title());
        let this = self.sheet.as_of;
        let outlook = match &self.sheet.outlook {
            Err(why) => {
                let date = |on| say.date(on);
                let why = say.why(why, &date);
                return self.paragraph((x, y), width, TEXT, Weight::Regular, &why, 4);
            }
            Ok(outlook) => outlook,
        };
        for (event, dates) in ahead(outlook).into_iter().take(6) {
            let when = match (dates.p10, dates.p90) {
                (Some(from), Some(to)) => say.span(from, to, this),
                (Some(from), None) => say.not_before(&say.short_date(from)),
                _ => match &dates.why {
                    Some(why) => say.why(why, &|on| say.date(on)),
                    None => continue,
                },
            };
            let name = capital(say.event(event));
            self.pen
                .text(x, y + 10.0, TEXT, Weight::Regular, INK, &name);
            let taken = self.pen.type_.width(&name, TEXT, Weight::Regular) + 8.0;
            let lines = self
                .pen
                .type_
                .lines(&when, width - taken, TEXT, Weight::Bold, 2);
            for line in &lines {
                self.pen
                    .text_to(x + width, y + 10.0, TEXT, Weight::Bold, INK, line);
                y += 14.5;
            }
        }
        let note = say.next_note();
        self.paragraph((x, y + 2.0), width, NOTE, Weight::Regular, note, 2)
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
        let mut top = self.title((left, y), width, say.windows_title());
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
            let more = say.more_windows(near.len() - shown);
            top = self.paragraph((left, top - 3.0), width, NOTE, Weight::Regular, &more, 1);
        }
        top - 6.0
    }

    fn window_lines(&self, window: &MoneyWindow, width: f32) -> Vec<(Weight, f32, Vec<String>)> {
        let say = self.say;
        let this = self.sheet.as_of;
        let mut head = say.window(&window.kind).to_owned();
        if let Some(span) = window.span {
            head = format!("{head}: {}", say.span(span.from, span.to, this));
        }
        if window.standing == Open::MayBeOpen {
            head = format!("{head} ({})", say.may_be_open());
        }
        let mut found = Vec::new();
        if let WindowKind::Freeze(loss) = &window.kind {
            found.extend(say.freeze(loss, self.form.units));
        } else if let Some(span) = window.span {
            found.push(capital(&format!(
                "{}.",
                say.widest(&say.span(span.earliest, span.latest, this))
            )));
        }
        found.push(say.caution(window.caution).to_owned());
        let lines =
            |text: &str, size, weight, most| self.pen.type_.lines(text, width, size, weight, most);
        vec![
            (Weight::Bold, TEXT, lines(&head, TEXT, Weight::Bold, 2)),
            (
                Weight::Regular,
                9.0,
                lines(&found.join(" "), 9.0, Weight::Regular, 5),
            ),
        ]
    }

    /// Map and pictures on the left, what is not known on the right.
    fn below(&mut self, y: f32) {
        let say = self.say;
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
        let mut under = self.title((x, y), width, say.unknown_title());
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
            let top = self.title((left, y), half, say.map_title());
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
        let mut lines = Vec::new();
        if let Some(walk) = &sheet.walk {
            if walk.heads == 1 {
                lines.push(say.one_head().to_owned());
            } else if walk.stops < 3 {
                lines.push(say.few_stops(walk.stops));
            }
            if walk.contradicts {
                lines.push(say.contradicts().to_owned());
            }
            let days = (sheet.as_of - walk.on).num_days();
            if days > OLD {
                lines.push(say.old_walk(days));
            }
            if let Some((stage, band)) = vaguest(&walk.field) {
                lines.push(say.vaguest(stage, &band));
            }
            if walk.places.is_empty() {
                lines.push(say.no_places().to_owned());
            }
        } else {
            lines.push(say.not_walked().to_owned());
        }
        if let Ok(outlook) = &sheet.outlook {
            let until = say.date(outlook.rests_on.weather_until);
            lines.push(say.weather_until(&until));
        }
        if !sheet.moisture_measured {
            lines.push(say.no_moisture().to_owned());
        }
        lines.push(say.one_field().to_owned());
        lines
    }

    fn foot(&mut self) {
        let say = self.say;
        let (x, y, width) = (self.left, self.bottom + 6.0, self.width);
        self.pen.stroke((x, y), (x + width, y), 0.8, RULE);
        let decides = say.who_decides();
        let y = self.paragraph((x, y + 3.0), width, NOTE, Weight::Regular, decides, 2);
        let made = say.made(
            &format!(
                "{} {}",
                say.date(self.sheet.made_at.date_naive()),
                self.sheet.made_at.format("%H:%M")
            ),
            &self.sheet.made_by,
        );
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

/// The events still to come, with a date or a reason of their own.
fn ahead(outlook: &Outlook) -> Vec<(Event, &EventDates)> {
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
    .filter(|(_, dates)| dates.come < 0.9 && dates.p10.is_some())
    .filter(|(_, dates)| dates.p90.is_none_or(|latest| latest >= outlook.as_of))
    .collect()
}

/// The most probable stage, with the next one where it is not sure.
fn standing(field: &WholeField) -> Standing {
    let mut ranked = Stage::ALL;
    ranked.sort_by(|a, b| field.chance.get(*b).total_cmp(field.chance.get(*a)));
    let (first, second) = (ranked[0], ranked[1]);
    if *field.chance.get(first) >= SURE {
        Standing::Sure(first, *field.chance.get(first))
    } else {
        Standing::Split(
            first,
            *field.chance.get(first),
            second,
            *field.chance.get(second),
        )
    }
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
