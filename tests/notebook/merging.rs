//! Plantings made twice: shown as one, and taken apart again.

use chrono::{NaiveDate, TimeDelta};
use headwalk_tests::devices::{SetClock, notebook_in_memory, service_in_memory};
use notebook::Notebook;
use notebook::log::{Change, after, heads};
use ripening::Reading;
use service::{
    MergeConflict, NewPlanting, PlantingBrief, PlantingDetails, PlantingEdit, PlantingPage,
    Service, ask,
};
use uuid::Uuid;

use crate::faces::{Face, NOON, head, named, service};

fn merge(service: &mut Service, duplicate: Uuid, into: Uuid) {
    service.ask(ask::MergePlantings { duplicate, into });
}

fn unmerge(service: &mut Service, duplicate: Uuid) {
    service.ask(ask::UnmergePlanting { duplicate });
}

fn page_of(service: &mut Service, planting: Uuid) -> PlantingPage {
    service.ask(ask::Planting { planting }).answer
}

fn names(service: &mut Service) -> Vec<String> {
    let mut names: Vec<String> = service.rows().into_iter().map(|row| row.name).collect();
    names.sort();
    names
}

fn merged(service: &mut Service, planting: Uuid) -> Vec<PlantingBrief> {
    service.ask(ask::MergedPlantings { planting }).answer.rows
}

fn walk(service: &mut Service, planting: Uuid, day: u32, share: u8) -> Uuid {
    let request = ask::StartWalk {
        id: None,
        planting,
        walked_on: NaiveDate::from_ymd_opt(2026, 8, day),
        scout: Some(format!("scout of the {day}")),
    };
    let page = service.ask(request).answer;
    for more in 0..4 {
        service.tap(page.stops[0].id, head(Reading::Pliable, share + more));
    }
    service.ask(ask::FinishWalk { walk: page.id });
    page.id
}

#[test]
fn merged_plantings_are_one_with_the_walks_of_both_and_come_apart_as_they_were() {
    let (mut service, _) = service();
    let mine = service.plant(named("Creek 3")).id;
    let theirs = service.plant(named("creek three")).id;
    let first = walk(&mut service, theirs, 12, 20);
    let second = walk(&mut service, mine, 18, 60);
    let (mine_before, theirs_before) = (page_of(&mut service, mine), page_of(&mut service, theirs));
    assert!(mine_before.walks[0].now.with_history.is_none());

    merge(&mut service, theirs, mine);
    assert_eq!(names(&mut service), ["Creek 3"]);
    let one = page_of(&mut service, mine);
    let walks: Vec<Uuid> = one.walks.iter().map(|walk| walk.id).collect();
    assert_eq!(walks, [second, first]);
    assert!(
        one.walks[0].now.with_history.is_some(),
        "the other's walk is history now"
    );
    assert_eq!(one.walks[0].now.alone, mine_before.walks[0].now.alone);
    assert_eq!(
        page_of(&mut service, theirs),
        one,
        "the old id still opens it"
    );
    let rows = merged(&mut service, mine);
    assert_eq!(rows.len(), 1);
    assert_eq!((rows[0].id, rows[0].walks), (theirs, 1));
    // Answers made anew from nothing are the same.
    service.with_notebook(Notebook::rebuild).unwrap();
    assert_eq!(page_of(&mut service, mine), one);

    // Work goes on under either id, and an edit under the old one reaches the shown.
    let third = walk(&mut service, theirs, 19, 70);
    assert_eq!(service.page(third).planting.id, mine);
    service.ask(ask::EditPlanting {
        planting: theirs,
        edit: PlantingEdit {
            details: PlantingDetails {
                hybrid: Some("H-17".to_owned()),
                ..PlantingDetails::default()
            },
            ..PlantingEdit::default()
        },
    });
    assert_eq!(
        page_of(&mut service, mine).planting.hybrid.as_deref(),
        Some("H-17")
    );
    service.ask(ask::RemoveWalk { walk: third });

    unmerge(&mut service, theirs);
    assert_eq!(names(&mut service), ["Creek 3", "creek three"]);
    assert_eq!(page_of(&mut service, theirs), theirs_before);
    assert_eq!(page_of(&mut service, mine).walks, mine_before.walks);
    assert!(merged(&mut service, mine).is_empty());
    let nothing = service.ask(ask::UnmergePlanting { duplicate: theirs });
    assert!(nothing.changed.is_empty(), "it is its own already");
}

#[test]
fn a_head_file_finds_a_merged_planting_by_either_name() {
    let (mut service, _) = service();
    let mine = service.plant(named("Creek 3")).id;
    let theirs = service.plant(named("Creek three")).id;
    merge(&mut service, theirs, mine);
    let text = "planting,walked_on,stop,reading,share\nCreek three,2026-08-12,1,pliable,40\n\
                Creek 3,2026-08-15,1,pliable,60\n";
    service.ask(ask::ImportHeadFile {
        text: text.to_owned(),
    });
    assert_eq!(page_of(&mut service, mine).walks.len(), 2);
    let renamed = service.call(ask::EditPlanting {
        planting: mine,
        edit: PlantingEdit {
            name: Some("Creek three".to_owned()),
            ..PlantingEdit::default()
        },
    });
    assert!(renamed.is_ok(), "its own other name is free: {renamed:?}");
}

#[test]
fn the_name_of_one_merged_into_a_removed_planting_is_free() {
    let (mut service, _) = service();
    let mine = service.plant(named("Creek 3")).id;
    let theirs = service.plant(named("Creek three")).id;
    merge(&mut service, theirs, mine);
    let again = service.call(ask::AddPlanting {
        new: named("Creek three"),
    });
    assert!(again.is_err(), "shown as Creek 3: {again:?}");
    service.ask(ask::RemovePlanting { planting: mine });
    service.plant(named("Creek three"));
    assert_eq!(names(&mut service), ["Creek three"]);
}

#[test]
fn chains_lead_to_the_end_and_each_comes_out_by_itself() {
    let (mut service, _) = service();
    let [a, b, c] = ["A", "B", "C"].map(|name| service.plant(named(name)).id);
    merge(&mut service, a, b);
    merge(&mut service, b, c);
    assert_eq!(names(&mut service), ["C"]);
    assert_eq!(merged(&mut service, c).len(), 2);
    unmerge(&mut service, b);
    assert_eq!(names(&mut service), ["B", "C"], "A stays with B");
    merge(&mut service, c, b);
    service.ask(ask::RemovePlanting { planting: c });
    assert!(service.rows().is_empty(), "removed is what was shown");
    service.ask(ask::RestorePlanting { planting: b });
    assert_eq!(names(&mut service), ["B"]);
    unmerge(&mut service, a);
    unmerge(&mut service, c);
    assert_eq!(names(&mut service), ["A", "B", "C"]);
}

/// All changes of a notebook, by writer.
fn changes(notebook: &Notebook) -> Vec<Vec<Change>> {
    heads(notebook.db())
        .unwrap()
        .into_keys()
        .map(|device| after(notebook.db(), device, 0, usize::MAX).unwrap())
        .collect()
}

pub fn give(to: &mut Service, page: &[Change]) {
    to.with_notebook(|notebook| notebook.ingest(page)).unwrap();
}

#[test]
fn two_people_merging_apart_from_each_other_end_alike_whatever_arrives_first() {
    let clock = SetClock::at(NOON).unwrap();
    let mut first = service_in_memory(&clock, 1).unwrap();
    let [a, b, c] = ["A", "B", "C"].map(|name| first.plant(named(name)).id);
    let mut second = service_in_memory(&clock, 2).unwrap();
    for page in changes(first.notebook()) {
        give(&mut second, &page);
    }
    // A circle, and two words about C; the second's are later.
    merge(&mut first, a, b);
    merge(&mut first, c, a);
    clock.move_by(TimeDelta::seconds(5));
    merge(&mut second, b, a);
    merge(&mut second, c, b);
    let (ours, theirs) = (changes(first.notebook()), changes(second.notebook()));
    for page in &theirs {
        give(&mut first, page);
    }
    for page in &ours {
        give(&mut second, page);
    }
    for service in [&mut first, &mut second] {
        assert_eq!(names(service), ["A"], "the later word");
        assert_eq!(merged(service, a).len(), 2);
    }
    let digest = first.notebook().view_digest().unwrap();
    assert_eq!(second.notebook().view_digest().unwrap(), digest);

    // The merges before the plantings they speak of.
    let mut late = notebook_in_memory(&clock, 3).unwrap();
    let mut series = changes(first.notebook());
    series.sort_by_key(Vec::len);
    for page in &series {
        late.ingest(page).unwrap();
    }
    assert_eq!(late.view_digest().unwrap(), digest);
    late.rebuild().unwrap();
    assert_eq!(late.view_digest().unwrap(), digest);

    // Taken apart once, they are apart, though both had merged the two.
    unmerge(&mut second, b);
    assert_eq!(names(&mut second), ["A", "B"]);
}

#[test]
fn what_may_be_one_is_named_and_nothing_else() {
    let (mut service, _) = service();
    let plant = |service: &mut Service, name: &str, field: &str, hybrid: &str, day| {
        service
            .plant(NewPlanting {
                details: PlantingDetails {
                    field: Some(field.to_owned()),
                    hybrid: Some(hybrid.to_owned()),
                    planted_on: NaiveDate::from_ymd_opt(2026, 5, day),
                    ..named(name).details
                },
                ..named(name)
            })
            .id
    };
    let one = plant(&mut service, "Bend east", "Bend", "H-17", 20);
    let other = plant(&mut service, "East of bend", "bend", "h17", 22);
    plant(&mut service, "Bend west", "Bend", "H-17", 29);
    plant(&mut service, "Bend 9", "Bend", "H-9", 20);
    plant(&mut service, "Hill", "Hill", "H-17", 20);
    walk(&mut service, other, 12, 40);
    let pairs = |service: &mut Service| service.ask(ask::LikelyDuplicates {}).answer.pairs;
    let found = pairs(&mut service);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!((found[0].one.id, found[0].other.id), (other, one));
    assert_eq!(found[0].one.scouts, ["scout of the 12"]);
    merge(&mut service, one, other);
    assert!(pairs(&mut service).is_empty());
}

#[test]
fn giving_the_value_that_stands_settles_a_conflict() {
    let clock = SetClock::at(NOON).unwrap();
    let mut first = service_in_memory(&clock, 1).unwrap();
    let mut second = service_in_memory(&clock, 2).unwrap();
    let id = first.plant(named("Creek 3")).id;
    for page in changes(first.notebook()) {
        give(&mut second, &page);
    }
    let edit = |service: &mut Service, hybrid: &str| {
        service.ask(ask::EditPlanting {
            planting: id,
            edit: PlantingEdit {
                details: PlantingDetails {
                    hybrid: Some(hybrid.to_owned()),
                    ..PlantingDetails::default()
                },
                ..PlantingEdit::default()
            },
        });
    };
    edit(&mut first, "H-1");
    clock.move_by(TimeDelta::seconds(5));
    edit(&mut second, "H-2");
    for page in changes(second.notebook()) {
        give(&mut first, &page);
    }
    let open = |service: &mut Service| service.ask(ask::Conflicts { planting: id }).answer.fields;
    let fields = open(&mut first);
    assert_eq!(fields.len(), 1);
    assert_eq!(fields[0].stands.value, "H-2");
    assert_eq!(fields[0].others[0].value, "H-1");
    edit(&mut first, "H-2");
    assert!(open(&mut first).is_empty());
}

/// A device that was copied, both copies writing on: the branch that moves keeps
/// its own order of edits, and the other's value is still in conflict with it.
#[test]
fn what_a_moved_branch_replaced_is_its_own() {
    let clock = SetClock::at(NOON).unwrap();
    let mut kept = service_in_memory(&clock, 1).unwrap();
    let id = kept.plant(named("Creek 3")).id;
    let mut copy = service_in_memory(&clock, 2).unwrap();
    let past = changes(kept.notebook());
    give(&mut copy, &past[0]);
    let device = kept.notebook().device();
    copy.notebook()
        .db()
        .execute("UPDATE this_device SET id = ?1", [device])
        .unwrap();
    let edit = |service: &mut Service, hybrid: &str| {
        clock.move_by(TimeDelta::seconds(5));
        service.ask(ask::EditPlanting {
            planting: id,
            edit: PlantingEdit {
                details: PlantingDetails {
                    hybrid: Some(hybrid.to_owned()),
                    ..PlantingDetails::default()
                },
                ..PlantingEdit::default()
            },
        });
    };
    edit(&mut kept, "H-1");
    // Both changes of the copy carry numbers that the kept one has used, too.
    edit(&mut copy, "H-2");
    edit(&mut copy, "H-3");
    edit(&mut kept, "H-4");
    let branch = Uuid::from_u128(7);
    copy.with_notebook(|notebook| notebook.move_branch(device, 2, branch))
        .unwrap();
    assert_ne!(copy.notebook().device(), device);
    for page in changes(kept.notebook()) {
        give(&mut copy, &page);
    }
    let mut third = service_in_memory(&clock, 3).unwrap();
    for page in changes(copy.notebook()).into_iter().rev() {
        give(&mut third, &page);
    }
    for service in [&mut copy, &mut third] {
        let fields = service.ask(ask::Conflicts { planting: id }).answer.fields;
        let others: Vec<&str> = fields[0]
            .others
            .iter()
            .map(|other| other.value.as_str())
            .collect();
        assert_eq!(fields[0].stands.value, "H-4");
        assert_eq!(
            others,
            ["H-3"],
            "H-1 and H-2 were replaced by their own writers"
        );
    }
    assert_eq!(
        third.notebook().view_digest().unwrap(),
        copy.notebook().view_digest().unwrap()
    );
    edit(&mut third, "H-5");
    let fields = third.ask(ask::Conflicts { planting: id }).answer.fields;
    assert!(fields.is_empty());
}

/// Numbers named by an undo are those of the device's own series, which a moved
/// branch leaves; nothing of it is taken back twice.
#[test]
fn after_a_branch_moved_undo_takes_back_only_what_came_after() {
    let (mut service, _) = service();
    let planting = service.plant(named("Creek 3")).id;
    let page = service.start(planting);
    let stop = page.stops[0].id;
    service.tap(stop, head(Reading::Pliable, 40));
    service.tap(stop, head(Reading::Pliable, 50));
    service.undo(page.id);
    let device = service.notebook().device();
    service
        .with_notebook(|notebook| notebook.move_branch(device, 3, Uuid::from_u128(7)))
        .unwrap();
    let before = service.page(page.id);
    assert_eq!(before.stops[0].heads.len(), 1);
    assert_eq!(
        before.undo, None,
        "what the branch did is another series by now"
    );
    service.tap(stop, head(Reading::Pliable, 60));
    let after = service.undo(page.id);
    assert_eq!(after.stops[0].heads, before.stops[0].heads);
    assert_eq!(after.undo, None);
}

fn merge_conflicts(service: &mut Service, planting: Uuid) -> Vec<MergeConflict> {
    service.ask(ask::Conflicts { planting }).answer.merges
}

/// Two scouts who know the same three plantings, and have not met since.
fn two_scouts() -> (SetClock, [Service; 2], [Uuid; 3]) {
    let clock = SetClock::at(NOON).unwrap();
    let mut first = service_in_memory(&clock, 1).unwrap();
    let ids = ["A", "B", "C"].map(|name| first.plant(named(name)).id);
    let mut second = service_in_memory(&clock, 2).unwrap();
    for page in changes(first.notebook()) {
        give(&mut second, &page);
    }
    (clock, [first, second], ids)
}

fn meet([first, second]: &mut [Service; 2]) {
    let (ours, theirs) = (changes(first.notebook()), changes(second.notebook()));
    theirs.iter().for_each(|page| give(first, page));
    ours.iter().for_each(|page| give(second, page));
    assert_eq!(
        first.notebook().view_digest().unwrap(),
        second.notebook().view_digest().unwrap()
    );
}

fn settle(service: &mut Service, conflict: &MergeConflict, into: Option<Uuid>) {
    service.ask(ask::SettleMerge {
        planting: conflict.planting,
        into,
    });
}

/// `a` into `b` on one phone and, later, `b` into `a` on the other: the later stands,
/// the other is one tap away, and the choice is the end of it.
#[test]
fn two_merges_either_way_round_are_shown_and_settled() {
    for take_other in [true, false] {
        let (clock, mut both, [a, b, c]) = two_scouts();
        merge(&mut both[0], a, b);
        clock.move_by(TimeDelta::seconds(5));
        merge(&mut both[1], b, a);
        meet(&mut both);
        for service in &mut both {
            assert_eq!(names(service), ["A", "C"]);
            let merges = merge_conflicts(service, a);
            assert_eq!(merges.len(), 1, "{merges:?}");
            assert_eq!((merges[0].planting, merges[0].name.as_str()), (a, "A"));
            assert_eq!(merges[0].stands.into, None);
            the_later_word_stands(&merges[0]);
            let others: Vec<_> = merges[0].others.iter().map(|each| each.into).collect();
            assert_eq!(others, [Some(b)]);
            assert_eq!(merges[0].others[0].name, "B");
            assert!(merge_conflicts(service, c).is_empty(), "not C's affair");
        }
        let conflict = merge_conflicts(&mut both[0], a).remove(0);
        let into = take_other.then_some(b);
        settle(&mut both[0], &conflict, into);
        meet(&mut both);
        let (kept, shown) = if take_other { (b, "B") } else { (a, "A") };
        for service in &mut both {
            assert_eq!(names(service), [shown, "C"]);
            assert!(merge_conflicts(service, kept).is_empty());
            service.ask(ask::UnmergePlanting {
                duplicate: if take_other { a } else { b },
            });
            assert_eq!(names(service), ["A", "B", "C"], "no older word is left");
        }
    }
}

fn the_later_word_stands(conflict: &MergeConflict) {
    let other = &conflict.others[0];
    assert_ne!(conflict.stands.device, other.device);
    assert!(conflict.stands.recorded_at > other.recorded_at);
}

#[test]
fn one_planting_merged_into_two_is_shown_on_both_and_settled() {
    let (clock, mut both, [a, b, c]) = two_scouts();
    merge(&mut both[0], a, b);
    clock.move_by(TimeDelta::seconds(5));
    merge(&mut both[1], a, c);
    meet(&mut both);
    for service in &mut both {
        assert!(merged(service, b).is_empty());
        assert_eq!(merged(service, c)[0].id, a, "the later");
        for page in [b, c] {
            let merges = merge_conflicts(service, page);
            assert_eq!(merges.len(), 1);
            assert_eq!(merges[0].stands.into, Some(c));
            assert_eq!(merges[0].others[0].into, Some(b));
        }
    }
    let conflict = merge_conflicts(&mut both[1], c).remove(0);
    settle(&mut both[1], &conflict, Some(b));
    meet(&mut both);
    for service in &mut both {
        assert_eq!(merged(service, b)[0].id, a);
        assert!(merge_conflicts(service, b).is_empty());
        assert!(merge_conflicts(service, c).is_empty());
    }
    // Both lead to one planting: there is nothing to choose.
    clock.move_by(TimeDelta::seconds(5));
    unmerge(&mut both[0], a);
    meet(&mut both);
    merge(&mut both[0], a, b);
    clock.move_by(TimeDelta::seconds(5));
    merge(&mut both[1], a, c);
    merge(&mut both[1], b, c);
    meet(&mut both);
    assert!(merge_conflicts(&mut both[0], c).is_empty());
    let itself = both[0].call(ask::SettleMerge {
        planting: a,
        into: Some(a),
    });
    assert!(itself.is_err());
}

/// What stands can be chosen although it was removed; a removed planting is not offered
/// to be one of its own again.
#[test]
fn what_was_removed_stands_if_so_chosen_and_is_not_offered() {
    for keep in [true, false] {
        let (clock, mut both, [a, b, c]) = two_scouts();
        merge(&mut both[0], a, b);
        clock.move_by(TimeDelta::seconds(5));
        merge(&mut both[1], a, c);
        both[1].ask(ask::RemovePlanting { planting: c });
        meet(&mut both);
        let conflict = merge_conflicts(&mut both[0], b).remove(0);
        assert_eq!(conflict.stands.into, Some(c));
        settle(&mut both[0], &conflict, Some(if keep { c } else { b }));
        meet(&mut both);
        for service in &mut both {
            assert_eq!(names(service), ["B"]);
            assert_eq!(merged(service, b).len(), usize::from(!keep));
            assert!(merge_conflicts(service, b).is_empty());
        }
    }
    let (clock, mut both, [a, b, _]) = two_scouts();
    merge(&mut both[0], a, b);
    unmerge(&mut both[0], a);
    both[0].ask(ask::RemovePlanting { planting: a });
    clock.move_by(TimeDelta::seconds(5));
    merge(&mut both[1], a, b);
    meet(&mut both);
    for service in &mut both {
        assert_eq!(merged(service, b)[0].id, a, "the later");
        let none = merge_conflicts(service, b);
        assert!(none.is_empty(), "{none:?}");
    }
    let alone = both[0].call(ask::SettleMerge {
        planting: a,
        into: None,
    });
    assert!(alone.is_err());
}

#[test]
fn taken_apart_here_and_merged_there_is_a_conflict() {
    let (clock, mut both, [a, b, _]) = two_scouts();
    merge(&mut both[0], a, b);
    meet(&mut both);
    unmerge(&mut both[0], a);
    clock.move_by(TimeDelta::seconds(5));
    let c = both[1].plant(named("D")).id;
    merge(&mut both[1], b, c);
    meet(&mut both);
    let none = merge_conflicts(&mut both[0], a);
    assert!(none.is_empty(), "two words about two: {none:?}");
    merge(&mut both[0], a, b);
    unmerge(&mut both[0], a);
    clock.move_by(TimeDelta::seconds(5));
    merge(&mut both[1], a, b);
    meet(&mut both);
    let merges = merge_conflicts(&mut both[0], c);
    assert_eq!(merges.len(), 1);
    assert_eq!(
        merges[0].stands.into,
        Some(c),
        "the end of the way when it was said"
    );
    assert_eq!(merges[0].others[0].into, None);
    settle(&mut both[0], &merges[0], None);
    meet(&mut both);
    assert_eq!(names(&mut both[1]), ["A", "C", "D"]);
    assert!(merge_conflicts(&mut both[1], a).is_empty());
}
