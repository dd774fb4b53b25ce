//! Head files into the notebook.

use std::fmt::Write as _;

use ripening::{Flag, Reading};
use service::{HeadFileReview, ProblemCode, Service, ask};

use crate::faces::{Face, head, named, service};

const FILE: &str = "planting,walked_on,stop,reading,share,scout,note,flags,row\n\
    North 40,2026-08-01,1,pliable,40,Ana,,,7\n\
    North 40,2026-08-01,1,pliable,40,Ana,,,7\n\
    North 40,2026-08-01,2,boot,,Ana,late,moldy,\n\
    South,2026-08-01,1,dented,101,Ana,,,\n\
    South,2026-08-02,1,dented,10,Ben,,,\n";

fn import(service: &mut Service, text: &str) -> HeadFileReview {
    let request = ask::ImportHeadFile {
        text: text.to_owned(),
    };
    service.ask(request).answer
}

#[test]
fn good_rows_are_stored_and_bad_ones_told() {
    let (mut service, _) = service();
    let review = import(&mut service, FILE);
    assert_eq!((review.heads, review.walks, review.stops), (4, 2, 3));
    assert_eq!(review.new_plantings, vec!["North 40", "South"]);
    assert_eq!((review.already_here, review.refused), (0, 1));
    assert_eq!(review.refused_rows[0].line, 5);
    assert!(
        review.refused_rows[0]
            .reason
            .to_string()
            .contains("share 101")
    );

    let row = service
        .rows()
        .into_iter()
        .find(|row| row.name == "North 40")
        .unwrap();
    let brief = row.last_walk.unwrap();
    assert!(brief.finished);
    assert_eq!(brief.scout, "Ana");
    assert_eq!(brief.now.alone.unwrap().heads, 3);
    let page = service.page(brief.id);
    assert_eq!(page.stops[0].heads.len(), 2, "two equal rows are two heads");
    let noted = &page.stops[1].heads[0];
    assert_eq!(noted.note.as_deref(), Some("late"));
    assert_eq!(noted.flags, vec![Flag::Moldy]);
    let extra: String = service
        .notebook()
        .db()
        .query_row(
            "SELECT extra FROM head WHERE extra IS NOT NULL LIMIT 1",
            [],
            |row| row.get(0),
        )
        .unwrap();
    assert_eq!(extra, r#"{"row":"7"}"#);
}

#[test]
fn a_review_says_the_same_and_stores_nothing() {
    let (mut service, _) = service();
    let before = service.notebook().view_digest().unwrap();
    let request = ask::ReviewHeadFile {
        text: FILE.to_owned(),
    };
    let reply = service.ask(request);
    assert!(reply.changed.is_empty());
    let review = reply.answer;
    assert_eq!(service.notebook().view_digest().unwrap(), before);
    assert!(
        notebook::log::heads(service.notebook().db())
            .unwrap()
            .is_empty()
    );
    assert_eq!(import(&mut service, FILE), review);
}

#[test]
fn importing_again_stores_nothing_twice() {
    let (mut service, _) = service();
    import(&mut service, FILE);
    let heads = notebook::log::heads(service.notebook().db()).unwrap();
    let again = import(&mut service, FILE);
    assert_eq!((again.heads, again.already_here), (4, 4));
    assert!(again.new_plantings.is_empty());
    assert_eq!(
        notebook::log::heads(service.notebook().db()).unwrap(),
        heads
    );

    // A file that has grown brings only what is new.
    let grown = format!("{FILE}North 40,2026-08-01,1,pliable,40,Ana,,,7\n");
    let review = import(&mut service, &grown);
    assert_eq!((review.heads, review.already_here), (5, 4));
}

#[test]
fn a_removed_head_does_not_come_back_with_its_file() {
    let (mut service, _) = service();
    import(&mut service, FILE);
    let south = service
        .rows()
        .into_iter()
        .find(|row| row.name == "South")
        .unwrap();
    let walk = south.last_walk.unwrap().id;
    let of = service.page(walk).stops[0].heads[0].id;
    service.ask(ask::RemoveHead { head: of });
    assert_eq!(import(&mut service, FILE).already_here, 4);
    assert!(service.page(walk).stops[0].heads.is_empty());
}

#[test]
fn heads_that_were_tapped_are_not_doubled_by_a_file_of_them() {
    let (mut service, _) = service();
    let planting = service.plant(named("North 40"));
    let page = service.start(planting.id);
    for _ in 0..2 {
        service.tap(page.stops[0].id, head(Reading::Pliable, 40));
    }
    let review = import(
        &mut service,
        "planting,walked_on,stop,reading,share\n\
         North 40,2026-08-20,1,pliable,40\n\
         North 40,2026-08-20,1,pliable,40\n\
         North 40,2026-08-20,1,pliable,40\n",
    );
    assert_eq!((review.heads, review.already_here), (3, 2));
}

#[test]
fn the_same_file_on_two_phones_is_the_same_heads() {
    let (mut one, clock) = service();
    let mut two = headwalk_tests::devices::service_in_memory(&clock, 2).unwrap();
    import(&mut one, FILE);
    import(&mut two, FILE);
    let device = two.notebook().device();
    let changes = notebook::log::after(two.notebook().db(), device, 0, usize::MAX).unwrap();
    one.with_notebook(|notebook| notebook.ingest(&changes))
        .unwrap();
    let row = one
        .rows()
        .into_iter()
        .find(|row| row.name == "North 40")
        .unwrap();
    assert_eq!(row.last_walk.unwrap().now.alone.unwrap().heads, 3);
}

#[test]
fn unusable_files_are_refused_whole() {
    let (mut service, _) = service();
    for (text, says) in [
        (String::new(), "empty"),
        (
            "planting,walked_on,stop,reading\n".to_owned(),
            "'share' is missing",
        ),
        (
            "planting,walked_on,stop,reading,share\nP,2026-13-01,1,boot,\n".to_owned(),
            "no good row in the file; the first bad one is line 2",
        ),
    ] {
        let problem = service.refuse(ask::ImportHeadFile { text });
        assert_eq!(problem.code, ProblemCode::BadInput);
        assert!(problem.message.contains(says), "{}", problem.message);
    }
    // A fatal fault late in a long file takes everything back.
    let mut bytes = b"planting,walked_on,stop,reading,share\n".to_vec();
    for number in 0..30_000 {
        bytes.extend(format!("P,2026-08-01,{},boot,\n", number % 50).as_bytes());
    }
    bytes.extend(b"P\xff,2026-08-01,1,boot,\n");
    let before = service.notebook().view_digest().unwrap();
    let problem = service
        .with_notebook(|notebook| {
            service::import_heads(notebook, bytes.as_slice(), service::Keep::GoodRows, |_| {
                Ok(())
            })
        })
        .unwrap_err();
    assert!(problem.message.starts_with("line 30002"), "{problem}");
    assert_eq!(service.notebook().view_digest().unwrap(), before);
}

#[test]
fn a_large_walk_spans_several_changes_and_several_gatherings() {
    let (mut service, _) = service();
    let mut text = "planting,walked_on,stop,reading,share\n".to_owned();
    for number in 0..45_000 {
        let planting = number % 3;
        let stop = number % 40 + 1;
        let share = number % 100 + 1;
        writeln!(text, "P{planting},2026-08-01,{stop},pliable,{share}").unwrap();
    }
    let review = import(&mut service, &text);
    assert_eq!((review.heads, review.walks, review.stops), (45_000, 3, 120));
    let stored: u32 = service
        .notebook()
        .db()
        .query_row("SELECT count(*) FROM head", [], |row| row.get(0))
        .unwrap();
    assert_eq!(stored, 45_000);
    let longest: usize = service
        .notebook()
        .db()
        .query_row("SELECT max(length(body)) FROM change", [], |row| row.get(0))
        .unwrap();
    assert!(longest < 128 * 1024, "{longest}");
    let made: usize = service
        .notebook()
        .db()
        .prepare("SELECT body FROM change")
        .unwrap()
        .query_map([], |row| row.get::<_, String>(0))
        .unwrap()
        .map(|body| body.unwrap().matches(r#""fact":"stop""#).count())
        .sum();
    assert_eq!(made, 120, "each stop is made once");
}

#[test]
fn each_head_keeps_its_own_words_among_others_without() {
    let (mut service, _) = service();
    let mut text = "planting,walked_on,stop,reading,share,scout,note,flags,row\n".to_owned();
    let mut expected = Vec::new();
    for share in 1..=96_u32 {
        let reading = ["pliable", "dented", "liquid"][share as usize % 3];
        let note = if share % 5 == 0 { "by the gate" } else { "" };
        let flags = ["", "moldy", "", "moldy bird_fed"][share as usize % 4];
        let row = if share % 7 == 0 { "last" } else { "" };
        writeln!(
            text,
            "P,2026-08-0{},{},{reading},{share},Ana,{note},{flags},{row}",
            share % 3 + 1,
            share % 4
        )
        .unwrap();
        expected.push((
            share,
            reading.to_owned(),
            Some(note.to_owned()).filter(|note| !note.is_empty()),
            flags.to_owned(),
            Some(r#"{"row":"last"}"#.to_owned()).filter(|_| !row.is_empty()),
        ));
    }
    import(&mut service, &text);
    let db = service.notebook().db();
    let mut stored = db
        .prepare("SELECT share, reading, note, flags, extra FROM head ORDER BY share")
        .unwrap();
    let stored: Vec<_> = stored
        .query_map([], |row| {
            Ok((
                row.get::<_, u32>(0)?,
                row.get::<_, String>(1)?,
                row.get::<_, Option<String>>(2)?,
                row.get::<_, String>(3)?,
                row.get::<_, Option<String>>(4)?,
            ))
        })
        .unwrap()
        .collect::<Result<_, _>>()
        .unwrap();
    assert_eq!(stored, expected);
}
