//! The field sheet, read back by another program (poppler).

use std::io::Write;
use std::process::{Command, Stdio};

use chrono::NaiveDate;
use headwalk_tests::demo_data;
use headwalk_tests::devices::{SetClock, service_in_memory};
use ripening::Reading;
use service::{FileOut, Paper, PhotoOf, Place, Service, SheetAsk, Units, ask};
use uuid::Uuid;
use words::{Language, Words};

use crate::archive_photos::{add, on_disk, picture};
use crate::books::{empty, file};
use crate::faces::{Face, head, named};

fn ask(planting: Uuid) -> SheetAsk {
    SheetAsk {
        planting,
        paper: None,
        language: None,
        units: None,
    }
}

fn sheet(service: &mut Service, ask: SheetAsk) -> Vec<u8> {
    file(service, &FileOut::Sheet(ask))
}

/// What a program of poppler says of a PDF on its standard input.
fn poppler(program: &str, args: &[&str], pdf: &[u8]) -> String {
    let mut run = Command::new(program)
        .args(args)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap_or_else(|error| panic!("{program} (poppler-utils) cannot be run: {error}"));
    run.stdin.take().unwrap().write_all(pdf).unwrap();
    let output = run.wait_with_output().unwrap();
    assert!(output.status.success());
    String::from_utf8(output.stdout).unwrap()
}

/// Text of the page in the order of reading, after a check that it is one.
fn text_of(pdf: &[u8]) -> String {
    let info = poppler("pdfinfo", &["-"], pdf);
    let pages = info
        .lines()
        .find(|line| line.starts_with("Pages:"))
        .unwrap();
    assert_eq!(pages.split_whitespace().last(), Some("1"), "{info}");
    poppler("pdftotext", &["-layout", "-", "-"], pdf)
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

/// The page as it stands, line by line, without the empty ones.
fn laid_out(pdf: &[u8]) -> String {
    let text = poppler("pdftotext", &["-layout", "-", "-"], pdf);
    let lines = text.lines().map(str::trim_end);
    lines
        .filter(|line| !line.is_empty())
        .collect::<Vec<_>>()
        .join("\n")
}

/// The invented season on its last day.
fn season() -> Service {
    let clock = SetClock::at("2026-09-16T08:30:00-05:00").unwrap();
    let mut service = service_in_memory(&clock, 7).unwrap();
    let text = |name: &str| std::fs::read_to_string(demo_data().join(name)).unwrap();
    service.ask(ask::ImportPlantingFile {
        text: text("plantings.csv"),
    });
    service.ask(ask::ImportWeatherFile {
        text: text("weather.csv"),
        station: None,
        strict: false,
        job: None,
    });
    service.ask(ask::ImportHeadFile {
        text: text("heads.csv"),
    });
    service
}

#[test]
fn every_planting_of_the_season_has_one_page_in_both_languages_and_on_both_papers() {
    let mut service = season();
    let rows = service.rows();
    assert!(rows.len() > 3);
    for (at, row) in rows.iter().enumerate() {
        let letter = at % 2 == 0;
        for (language, title, next) in [
            ("en", "Field sheet", "What comes next"),
            ("es", "Hoja de campo", "Lo que viene"),
        ] {
            let pdf = sheet(
                &mut service,
                SheetAsk {
                    paper: Some(if letter { Paper::Letter } else { Paper::A4 }),
                    language: Some(language.to_owned()),
                    units: Some(if letter { Units::Us } else { Units::Metric }),
                    ..ask(row.id)
                },
            );
            let text = text_of(&pdf);
            for part in [title, next, row.name.as_str()] {
                assert!(text.contains(part), "{}: no '{part}' in {text}", row.name);
            }
            let size = poppler("pdfinfo", &["-"], &pdf);
            assert!(
                size.contains(if letter { "612 x 792" } else { "(A4)" }),
                "{size}"
            );
        }
    }
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    let id = season().rows()[0].id;
    let once = sheet(&mut season(), ask(id));
    assert_eq!(once, sheet(&mut season(), ask(id)));
    assert!(once.len() < 200_000, "{} bytes", once.len());
}

#[test]
fn what_is_said_on_the_screens_is_said_on_paper() {
    let mut service = season();
    let row = service
        .rows()
        .into_iter()
        .find(|row| row.name == "Creek 3")
        .unwrap();
    let text = text_of(&sheet(&mut service, ask(row.id)));
    let walk = row.last_walk.unwrap();
    let alone = walk.now.alone.unwrap();
    let counted = format!("{} heads at {} stops", alone.heads, alone.stops);
    assert!(text.contains(&counted), "{counted}: {text}");
    assert!(text.contains("90 % sure: "), "{text}");
    assert!(text.contains("What is not known"), "{text}");
    assert!(text.contains("not advice"), "{text}");
    assert!(text.contains("Made Sep 16, 2026, 08:30"), "{text}");
}

#[test]
fn a_caution_is_said_on_paper_as_on_the_screens_and_complete() {
    let mut service = season();
    let rows = service.rows();
    let creek = rows.iter().find(|row| row.name == "Creek 3").unwrap();
    for language in Language::ALL {
        let pdf = sheet(
            &mut service,
            SheetAsk {
                language: Some(language.folder().to_owned()),
                ..ask(creek.id)
            },
        );
        let text = poppler("pdftotext", &["-raw", "-", "-"], &pdf);
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let caution = Words::new(language)
            .outlook()
            .caution("label_and_local_rules_first")
            .unwrap();
        assert!(text.contains(&caution), "no '{caution}' in {text}");
    }
}

#[test]
fn without_walk_weather_or_dates_the_sheet_says_so() {
    let mut service = empty(1);
    let mut new = named("Bare");
    new.details.planted_on = None;
    let planting = service.plant(new).id;
    let text = text_of(&sheet(&mut service, ask(planting)));
    assert!(text.contains("Not walked yet"), "{text}");
    assert!(text.contains("No dates"), "{text}");
}

#[test]
fn one_head_is_called_one_head() {
    let mut service = empty(1);
    let planting = service.plant(named("One")).id;
    let walk = service.start(planting);
    service.tap(walk.stops[0].id, head(Reading::Pliable, 40));
    let text = text_of(&sheet(&mut service, ask(planting)));
    assert!(text.contains("1 head at 1 stop"), "{text}");
    assert!(text.contains("rests on one head"), "{text}");
    assert!(text.contains("no weather"), "{text}");
}

#[test]
fn long_names_and_letters_that_the_font_lacks_stay_on_the_page() {
    let mut service = empty(1);
    let long = "Bottom field along the old railroad embankment north of the second pivot, ";
    let mut new = named(&(long.repeat(2) + "\u{96ea} \u{f1}and\u{fa} \u{160}\u{e1}rka"));
    new.details.hybrid = Some("Unbroken".repeat(15));
    new.details.field = Some("F".repeat(120));
    new.details.planted_on = NaiveDate::from_ymd_opt(2026, 5, 20);
    let planting = service.plant(new).id;
    let walk = service.start(planting).id;
    for (at, share) in [10, 30, 50, 70, 90, 100].into_iter().enumerate() {
        let request = ask::AddStop {
            id: None,
            walk,
            place: Some(Place {
                latitude: 38.0 + 0.001 * at as f64,
                longitude: -99.0 - 0.0013 * at as f64,
                accuracy_m: Some(5.0),
                age_s: None,
            }),
        };
        let page = service.ask(request).answer;
        service.tap(page.stops.last().unwrap().id, head(Reading::Pliable, share));
    }
    for paper in [Paper::A4, Paper::Letter] {
        let pdf = sheet(
            &mut service,
            SheetAsk {
                paper: Some(paper),
                ..ask(planting)
            },
        );
        let text = text_of(&pdf);
        assert!(text.contains("Bottom field along"), "{text}");
        assert!(text.contains("Where heads were read"), "{text}");
        assert!(text.contains('\u{2026}'), "{text}");
    }
}

#[test]
fn a_language_that_is_not_known_is_refused() {
    let mut service = empty(1);
    let planting = service.plant(named("One")).id;
    let mut to = std::io::Cursor::new(Vec::new());
    let what = FileOut::Sheet(SheetAsk {
        language: Some("fr".to_owned()),
        ..ask(planting)
    });
    assert!(service.file_out(&what, &mut to).is_err());
}

/// Pictures of the page, as poppler counts them (a mask is another row).
fn pictures(pdf: &[u8]) -> usize {
    let list = poppler("pdfimages", &["-list", "-"], pdf);
    list.lines().filter(|row| row.contains(" image ")).count()
}

#[test]
fn no_picture_one_and_many_stand_on_one_page_with_their_captions() {
    for (count, shown) in [(0, 0), (1, 1), (2, 2), (7, 3)] {
        let mut book = on_disk(1);
        let service = &mut book.service;
        let planting = service.plant(named("Pictured")).id;
        let walk = service.start(planting);
        service.tap(walk.stops[0].id, head(Reading::Pliable, 40));
        for at in 0..count {
            // Wide and high by turns.
            let (wide, high) = if at % 2 == 0 { (320, 240) } else { (240, 320) };
            let photo = add(
                service,
                PhotoOf::Planting(planting),
                &picture(wide + at, high),
            );
            service.ask(ask::CaptionPhoto {
                photo: photo.id,
                caption: format!("Caption {at} of the sunny end"),
            });
        }
        for paper in [Paper::A4, Paper::Letter] {
            let pdf = sheet(
                service,
                SheetAsk {
                    paper: Some(paper),
                    ..ask(planting)
                },
            );
            let text = text_of(&pdf);
            assert_eq!(pictures(&pdf), shown, "{count} photos");
            let captions = (0..count).filter(|at| text.contains(&format!("Caption {at}")));
            assert_eq!(captions.count(), shown, "{count} photos: {text}");
            if let Some(folder) = std::env::var_os("HEADWALK_KEEP_SHEETS") {
                let name = format!("sheet-{count}-{paper:?}.pdf");
                std::fs::write(std::path::Path::new(&folder).join(name), &pdf).unwrap();
            }
        }
        // A picture whose file is damaged is left out, not shown.
        if count == 1 {
            let files = service.notebook().photo_files().unwrap();
            let (name, _) = files.all().unwrap()[0];
            let mut bytes = std::fs::read(files.path(name)).unwrap();
            let middle = bytes.len() / 2;
            bytes[middle] ^= 1;
            std::fs::write(files.path(name), bytes).unwrap();
            let pdf = sheet(service, ask(planting));
            text_of(&pdf);
            assert_eq!(pictures(&pdf), 0);
        }
    }
}

// To accept a change: `INSTA_UPDATE=always` before the call of the test.
#[test]
fn the_page_says_what_it_said_in_both_languages() {
    let mut service = season();
    let rows = service.rows();
    let creek = rows.iter().find(|row| row.name == "Creek 3").unwrap();
    for (language, units) in [("en", Units::Us), ("es", Units::Metric)] {
        let pdf = sheet(
            &mut service,
            SheetAsk {
                paper: Some(Paper::Letter),
                language: Some(language.to_owned()),
                units: Some(units),
                ..ask(creek.id)
            },
        );
        let mut settings = insta::Settings::clone_current();
        settings.set_prepend_module_to_snapshot(false);
        settings.set_omit_expression(true);
        let name = format!("sheet_{language}");
        settings.bind(|| insta::assert_snapshot!(name, laid_out(&pdf)));
    }
}
