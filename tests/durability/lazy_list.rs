//! The first list after an import does not wait for its answers.

use service::{PlantingRow, Service, WorkedOut, ask};

use crate::season::{Asking as _, Book, head_file, open};

fn rows(service: &mut Service) -> Vec<PlantingRow> {
    service.ask(ask::Plantings {}).rows
}

#[test]
fn rows_without_an_answer_say_so_and_are_filled_bit_by_bit() {
    let book = Book::new();
    let mut service = open(&book.path).unwrap();
    let text = head_file("Hill", 1, 60);
    service.ask(ask::ImportHeadFile { text });
    let first = rows(&mut service);
    assert_eq!(first.len(), 6);
    assert!(
        first
            .iter()
            .all(|row| row.working_out && row.last_walk.is_none())
    );
    // Told by the date alone, and not as never walked.
    assert!(first.iter().all(|row| row.due.days_since == Some(4)));
    let mut filled: Vec<PlantingRow> = Vec::new();
    loop {
        let WorkedOut { rows, left } = service.ask(ask::WorkOut {});
        assert!(!rows.is_empty());
        assert!(
            rows.iter()
                .all(|row| !row.working_out && row.last_walk.is_some())
        );
        filled.extend(rows);
        if left == 0 {
            break;
        }
    }
    let mut now = rows(&mut service);
    now.sort_by(|a, b| a.name.cmp(&b.name));
    filled.sort_by(|a, b| a.name.cmp(&b.name));
    assert_eq!(now, filled);
    // Kept for the next start.
    drop(service);
    let mut service = open(&book.path).unwrap();
    assert!(rows(&mut service).iter().all(|row| !row.working_out));
    let WorkedOut { rows, left } = service.ask(ask::WorkOut {});
    assert!(rows.is_empty() && left == 0);
}
