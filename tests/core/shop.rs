//! The shop's own lists: taken in once, what their columns mean remembered, found by name.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use springwright::job::file::write_text;
use springwright::shop::lists::{self, DEMO, Shop, ShopError};

const LIST: &str = "part;stiff;long\nA-1;52,5;340\nA-2;x;350\n;;\nA-3;60;352\n";

#[test]
fn the_demo_list_needs_no_file() {
    let folder = tempfile::tempdir().unwrap();
    let opened = Shop::at(folder.path().to_owned()).open(DEMO, None).expect("it ships");
    assert!(opened.list.springs.len() > 50 && opened.list.dampers.len() > 5 && opened.list.bad.is_empty());
    assert_eq!((opened.path, opened.said), (None, false));
}

#[test]
fn columns_said_once_are_remembered_with_the_list() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("mill.csv");
    write_text(&file, LIST).unwrap();
    let own = tempfile::tempdir().unwrap();
    let shop = Shop::at(own.path().join("lists"));
    // What the headers do not say has to be told.
    assert!(matches!(lists::open_file(&file, "mill.csv"), Err(ShopError::List { .. })));
    let mut columns = springwright::shop::parts::guess(LIST.as_bytes()).expect("headers");
    use springwright::shop::parts::Meaning;
    for (column, means, unit) in [(1, Meaning::Rate, "N/mm"), (2, Meaning::FreeLength, "mm")] {
        (columns.columns[column].means, columns.columns[column].unit) = (Some(means), Some(unit.to_owned()));
    }
    let (name, _) = shop.take_in(&file, &columns).expect("taken in");
    assert_eq!(shop.names(), ["mill.csv", DEMO]);
    let opened = shop.open(&name, None).expect("found by name");
    assert!(opened.said);
    assert_eq!((opened.list.springs.len(), opened.list.bad.len(), opened.list.rows), (2, 1, 3));
    assert_eq!(opened.list.bad[0].line, 3);
    // The shop's copy does not need the file any more, and taking it in again is no harm.
    std::fs::remove_file(&file).unwrap();
    shop.take_in(&own.path().join("lists/mill.csv"), &columns).expect("again");
    assert_eq!(shop.open(&name, None).expect("still there").list, opened.list);
}

/// Whichever of the two files cannot be written: the list that was there stays, and means what it meant.
#[cfg(unix)]
#[test]
fn a_list_that_cannot_be_taken_in_leaves_the_older_one_as_it_was() {
    use std::os::unix::fs::PermissionsExt as _;
    let own = tempfile::tempdir().unwrap();
    let elsewhere = tempfile::tempdir().unwrap();
    let shop = Shop::at(own.path().to_owned());
    let (old, new) = (own.path().join("l.csv"), elsewhere.path().join("l.csv"));
    write_text(&new, "number,rate (N/mm)\nx,50\n").unwrap();
    let columns = lists::columns_of(&new).unwrap();
    shop.take_in(&new, &columns).expect("taken in");
    let beside = own.path().join("l.csv.columns.ron");
    let state = || [&old, &beside].map(|p| std::fs::read_to_string(p).unwrap());
    let before = state();
    write_text(&new, "number,rate (N/mm),free length (mm)\nx,60,300\n").unwrap();
    let columns = lists::columns_of(&new).unwrap();
    for protected in [&old, &beside] {
        let mode = |mode| std::fs::set_permissions(protected, std::fs::Permissions::from_mode(mode)).unwrap();
        mode(0o444);
        let said = shop.take_in(&new, &columns).expect_err("it is protected").to_string();
        assert!(said.contains("write-protected") && said.ends_with(&*protected.to_string_lossy()), "{said}");
        mode(0o644);
        assert_eq!(state(), before);
    }
    assert_eq!(shop.open("l.csv", None).unwrap().list.springs[0].rate.value, 50e3);
}

#[test]
fn a_list_beside_the_job_comes_first() {
    let folder = tempfile::tempdir().unwrap();
    let own = tempfile::tempdir().unwrap();
    for (place, rate) in [(folder.path(), "50"), (own.path(), "60")] {
        write_text(&place.join("l.csv"), &format!("number,rate (N/mm)\nx,{rate}\n")).unwrap();
    }
    let shop = Shop::at(own.path().to_owned());
    let rate = |beside: Option<&std::path::Path>| shop.open("l.csv", beside).unwrap().list.springs[0].rate.value;
    assert_eq!(rate(Some(&folder.path().join("job.ron"))), 50e3);
    assert_eq!(rate(None), 60e3);
}

#[test]
fn what_is_missing_is_named() {
    let own = tempfile::tempdir().unwrap();
    let shop = Shop::at(own.path().to_owned());
    let said = shop.open("nowhere.csv", None).unwrap_err().to_string();
    assert!(said.contains("\"nowhere.csv\"") && said.contains(DEMO), "{said}");
    let gone = own.path().join("gone.csv");
    let said = lists::open_file(&gone, "gone.csv").unwrap_err().to_string();
    assert!(said.ends_with("gone.csv"), "{said}");
}

/// Words that somebody wrote between the settings: kept under another name before they are written over.
#[test]
fn comments_in_settings_are_kept_before_they_are_written_over() {
    let own = tempfile::tempdir().unwrap();
    let shop = Shop::at(own.path().to_owned());
    let elsewhere = tempfile::tempdir().unwrap();
    let new = elsewhere.path().join("l.csv");
    write_text(&new, "number,rate (N/mm)\nx,50\n").unwrap();
    let columns = lists::columns_of(&new).unwrap();
    assert_eq!(shop.take_in(&new, &columns).expect("taken in"), ("l.csv".to_owned(), None));
    let list = own.path().join("l.csv");
    let beside = own.path().join("l.csv.columns.ron");
    let commented = format!("// asked at the mill\n{}", std::fs::read_to_string(&beside).unwrap());
    write_text(&beside, &commented).unwrap();
    // The same once more loses no word.
    assert_eq!(lists::remember(&list, &columns).expect("the same"), None);
    assert_eq!(std::fs::read_to_string(&beside).unwrap(), commented);
    let mut other = columns.clone();
    other.columns[0].means = None;
    let original = lists::remember(&list, &other).expect("remembered").expect("kept");
    assert_eq!(original, own.path().join("l.csv.columns.ron.original"));
    assert_eq!(std::fs::read_to_string(&original).unwrap(), commented);
    assert!(!std::fs::read_to_string(&beside).unwrap().contains("mill"));
    assert_eq!(shop.names(), ["l.csv", DEMO], "an original is no list");
    // As a list of this name is replaced; where that fails, nothing more lies about than before.
    write_text(&beside, &commented).unwrap();
    let (_, original) = shop.take_in(&new, &other).expect("taken in");
    assert_eq!(original, Some(own.path().join("l.csv.columns.ron.original2")));

    // The names on the letterhead.
    let named = |name: &str| springwright::job::Shop { name: name.into(), ..Default::default() };
    assert_eq!(shop.remember_names(&named("Mill")).expect("remembered"), None);
    let names = own.path().join("letterhead/shop.ron");
    write_text(&names, "( // since spring\n name: \"Mill\")\n").unwrap();
    assert_eq!(shop.remember_names(&named("Mill")).expect("the same"), None);
    let original = shop.remember_names(&named("Weir")).expect("remembered").expect("kept");
    assert!(std::fs::read_to_string(original).unwrap().contains("since spring"));
    assert_eq!(shop.names_to_print().unwrap(), named("Weir"));
}
