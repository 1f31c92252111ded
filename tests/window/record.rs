//! The book in the window: made, filled in, written to by two at once, opened again.

use super::harness::{Window, photo_in};
use super::scale::close;
use egui::accesskit::Role;
use egui::{Key, Vec2, pos2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use poreline::book::{Book, Sighting, Voucher};
use poreline::session::{Step, StepStanding};
use std::path::{Path, PathBuf};
use tempfile::TempDir;

const TALL: Vec2 = Vec2::new(1280.0, 1500.0);

fn book_in(folder: &TempDir) -> PathBuf {
    folder.path().join("book")
}

/// A window that remembers its book in the folder, tall enough for all controls.
fn window_in(folder: &TempDir, photos: Vec<PathBuf>) -> Window {
    let mut window = Window::at_desk(photos, folder.path());
    window.harness.set_size(TALL);
    window.settle();
    window
}

/// With findings and an empty book made through the window.
fn with_book(folder: &TempDir) -> Window {
    let mut window = window_in(folder, vec![photo_in(folder)]);
    window.set_scale();
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    window.go(Step::Record);
    window.press(Role::DisclosureTriangle, "Make a new book");
    window.type_into("Name of the book", "Brackets of Alder Fen");
    let path = book_in(folder).display().to_string();
    window.type_into("Folder to make it in", &path);
    window.press(Role::Button, "Make the book");
    window
}

/// With one voucher in it, attached to the findings.
fn with_voucher(folder: &TempDir) -> Window {
    let mut window = with_book(folder);
    window.press(Role::Button, "New voucher");
    window.type_into("Date found", "2026-10-04");
    window.type_into("Place", "Alder Fen, north ride");
    window.type_into("Measured by", "Ines Dunmore");
    window.press(Role::Button, "Attach these findings");
    window
}

/// The only voucher, or that of the number, as it stands on the disk.
fn on_disk(folder: &TempDir, number: &str) -> Voucher {
    let book = Book::open(&book_in(folder)).expect("a book");
    book.voucher(number).expect("the voucher").clone()
}

/// Somebody else changes the voucher on the disk.
fn changed_by_somebody_else(folder: &TempDir, change: impl FnOnce(&mut Voucher)) {
    let mut book = Book::open(&book_in(folder)).expect("a book");
    let mut voucher = book.voucher("2026-0001").expect("the voucher").clone();
    change(&mut voucher);
    book.save_voucher(voucher).expect("saved");
}

fn says(window: &Window, words: &str) -> bool {
    let mut notices = window.harness.state().session().notices().iter();
    notices.any(|notice| notice.text.contains(words))
}

fn rows(window: &Window) -> Vec<String> {
    let book = window.harness.state().session().record().book();
    let book = book.expect("a book");
    book.shown()
        .map(poreline::session::record::Row::in_words)
        .collect()
}

fn per_mm(window: &Window) -> f64 {
    let results = window.harness.state().session().results();
    let findings = &results.expect("findings").measurement.findings;
    findings.pores.as_ref().expect("pores").per_mm.value
}

#[test]
fn findings_go_into_a_new_book_and_come_out_again_as_they_were() {
    let folder = TempDir::new().expect("a folder");
    let mut window = with_voucher(&folder);
    assert!(says(&window, "Attached to 2026-0001"));
    assert_eq!(window.standing(Step::Record), StepStanding::Done);
    let kept = on_disk(&folder, "2026-0001");
    assert_eq!(kept.locality.as_deref(), Some("Alder Fen, north ride"));
    let [attached] = &kept.measurements[..] else {
        panic!("not attached once: {kept:?}");
    };
    assert_eq!(
        attached.measurement_determined_by.as_deref(),
        Some("Ines Dunmore")
    );
    assert_eq!(attached.findings["scale"]["how"], "points");
    assert!(book_in(&folder).join(&kept.photos[0].path).is_file());

    // The same findings once more are kept once.
    window.press(Role::Button, "Attach these findings");
    let twice = on_disk(&folder, "2026-0001");
    assert_eq!((twice.photos.len(), twice.measurements.len()), (1, 1));
    let measured = per_mm(&window);

    window.press(Role::Button, "Book");
    let [row] = &rows(&window)[..] else {
        panic!("not one row: {:?}", rows(&window));
    };
    let figure = row
        .strip_prefix("2026-0001, 2026-10-04, Alder Fen, north ride, poroid, ")
        .and_then(|rest| rest.strip_suffix(" per mm")?.parse().ok());
    // Four to the mm by construction (harness.rs).
    close(figure.expect("a figure"), 4.0, 0.02);
    assert!(window.has_button(row));

    // The next start opens the book by itself; Enter on the row opens the photo as it was measured.
    let mut again = window_in(&folder, Vec::new());
    again.go(Step::Record);
    again
        .harness
        .get_by_role_and_label(Role::Button, row)
        .focus();
    again.settle();
    again.key(Key::Enter);
    assert!((per_mm(&again) / measured - 1.0).abs() < 1e-5);
    assert!(again.shows("Photo lattice"));
    // It stands in the book, so there is nothing to lose.
    assert_eq!(again.standing(Step::Record), StepStanding::Done);
    again.go(Step::Scale);
    assert!(again.shows("As it stands in the book"));
}

#[test]
fn what_two_changed_is_put_together_or_kept_apart_and_never_overwritten() {
    let folder = TempDir::new().expect("a folder");
    let mut window = with_voucher(&folder);
    changed_by_somebody_else(&folder, |voucher| voucher.smell = Some("anise".to_owned()));
    window.type_into("Habitat", "alder carr");
    window.press(Role::Button, "Save voucher");
    assert!(window.shows("2026-0001 was changed by somebody else"));
    assert_eq!(window.focused().as_deref(), Some("Put together"));
    assert_eq!(on_disk(&folder, "2026-0001").habitat, None);
    window.press(Role::Button, "Put together");
    let both = on_disk(&folder, "2026-0001");
    assert_eq!(both.smell.as_deref(), Some("anise"));
    assert_eq!(both.habitat.as_deref(), Some("alder carr"));

    // The same field, changed by both.
    changed_by_somebody_else(&folder, |voucher| voucher.habitat = Some("fen".to_owned()));
    window.type_into("Habitat", ", wet");
    window.press(Role::Button, "Save voucher");
    assert!(window.shows("Both of you changed these fields"));
    window.press(Role::Button, "Go on typing");
    assert_eq!(
        window.field("Habitat").value().as_deref(),
        Some("alder carr, wet")
    );
    window.press(Role::Button, "Save voucher");
    window.press(Role::Button, "Keep both");
    assert_eq!(
        on_disk(&folder, "2026-0001").habitat.as_deref(),
        Some("fen")
    );
    let apart = on_disk(&folder, "2026-0002");
    assert_eq!(apart.habitat.as_deref(), Some("alder carr, wet"));
    assert_ne!(apart.occurrence_id, both.occurrence_id);
    assert_eq!(rows(&window).len(), 2);
}

#[test]
fn what_cannot_be_is_told_beside_its_field_and_nothing_is_lost() {
    let folder = TempDir::new().expect("a folder");
    let mut window = with_book(&folder);
    window.press(Role::Button, "New voucher");
    window.type_into("Date found", "4 Oct");
    window.type_into("Cap width, cm", "wide");
    window.press(Role::Button, "Attach these findings");
    assert!(says(&window, "Mend the fields that are marked"));
    assert!(window.shows("A date as year-month-day"));
    assert!(window.shows("A number more than 0"));
    assert_eq!(
        window.field("Cap width, cm").value().as_deref(),
        Some("wide")
    );
    let book = Book::open(&book_in(&folder)).expect("a book");
    assert_eq!(book.vouchers().len(), 0);

    // Nothing typed goes without a word.
    window.press(Role::Button, "New voucher");
    assert!(window.shows("The voucher is not saved"));
    window.press(Role::Button, "Cancel");
    assert_eq!(window.field("Date found").value().as_deref(), Some("4 Oct"));
    let viewports = &mut window.harness.input_mut().viewports;
    let viewport = viewports
        .get_mut(&egui::ViewportId::ROOT)
        .expect("a window");
    viewport.events.push(egui::ViewportEvent::Close);
    window.harness.step();
    window.settle();
    assert!(window.shows("Closing the window would lose what you typed"));
    window.press(Role::Button, "Cancel");

    // A folder that is no book is named, and the open book stays.
    window.press(Role::DisclosureTriangle, "Another book");
    let nowhere = folder.path().display().to_string();
    window.type_into("Or type its folder", &nowhere);
    window.press(Role::Button, "Open this book");
    window.press(Role::Button, "Discard");
    assert!(says(&window, "There is no book in"));
    assert_eq!(rows(&window).len(), 0);
}

#[test]
fn the_demo_book_is_filtered_sorted_and_compared() {
    let folder = TempDir::new().expect("a folder");
    let mut window = window_in(&folder, Vec::new());
    window.go(Step::Record);
    window.press(Role::Button, "Open the demo book");
    assert_eq!(rows(&window).len(), 12);
    window.press(Role::Button, "Sort by per mm");
    window.press(Role::Button, "Sort by per mm, rising");
    let figures: Vec<f64> = rows(&window)
        .iter()
        .filter_map(|row| {
            row.strip_suffix(" per mm")?
                .rsplit(' ')
                .next()?
                .parse()
                .ok()
        })
        .collect();
    assert!(
        figures.len() > 4 && figures.is_sorted_by(|a, b| a >= b),
        "{figures:?}"
    );
    assert!(window.has_button("Sort by per mm, falling"));
    window.press(Role::Button, "Check the book");
    assert!(window.shows("3 things to look at"));
    assert!(window.shows("no photo belongs to it"));
    window.press(Role::Button, "AFFG-0098");
    assert_eq!(
        window.field("Catalogue number").value().as_deref(),
        Some("AFFG-0098")
    );
    window.press(Role::Button, "Book");
    window.press(Role::Button, "Hide");
    assert!(!window.shows("things to look at"));
    window.type_into("Find", "VERSICOLOR");
    let [row] = &rows(&window)[..] else {
        panic!("not one: {:?}", rows(&window));
    };
    window.press(Role::Button, row);
    window.press(Role::Button, "Compare with published ranges");
    assert!(window.shows("does not identify"));
    assert!(window.shows("Never eat a fungus"));
    assert!(window.shows("look next at"));
    assert!(window.shows("All that stands in AFFG-0114"));
    window.press(Role::Button, "Book");
    assert!(window.shows("does not name a species"), "names are shown");
    window.press(Role::Button, "Open its photo");
    let voucher = {
        let record = window.harness.state().session().record();
        record.form().expect("a voucher").base().clone()
    };
    let stored = voucher.current()[0].findings["pores"]["per_mm"]["value"].as_f64();
    assert!((per_mm(&window) / stored.expect("a figure") - 1.0).abs() < 1e-4);
    let book = window.harness.state().session().record().book();
    std::fs::remove_dir_all(book.expect("a book").folder()).expect("removed");
    assert!(
        !Path::new(&folder.path().join("desk.json")).exists(),
        "it is not remembered"
    );
}

#[test]
fn walks_are_added_and_what_was_seen_on_them_is_counted() {
    let folder = TempDir::new().expect("a folder");
    let mut window = with_book(&folder);
    window.press(Role::Button, "Walks");
    assert!(window.shows("No walk yet"));
    window.type_into("Date of the walk", "4 Oct");
    window.type_into("Place of the walk", "North Ride");
    assert!(window.shows("The date is written as year-month-day"));
    window.field("Date of the walk").focus();
    for _ in 0.."4 Oct".len() {
        window.key(Key::Backspace);
    }
    window.type_into("Date of the walk", "2026-10-04");
    window.press(Role::Button, "Add the walk");
    let on_disk = || Book::open(&book_in(&folder)).expect("a book");
    assert_eq!(on_disk().forays().len(), 1);

    window.type_into("Also seen", "Trametes cf. hirsuta");
    window.press(Role::Button, "Add to the checklist");
    // Somebody else writes to the same walk: both sightings stay.
    let mut theirs = on_disk();
    let mut walk = theirs.forays().next().expect("the walk").clone();
    walk.checklist.push(Sighting {
        scientific_name: "Fomes fomentarius".to_owned(),
        ..Sighting::default()
    });
    theirs.save_foray(walk).expect("saved");
    window.type_into("Also seen", "Stereum hirsutum");
    window.press(Role::Button, "Add to the checklist");
    let kept = on_disk();
    let walk = kept.forays().next().expect("the walk");
    let names: Vec<&str> = (walk.checklist.iter())
        .map(|sighting| sighting.scientific_name.as_str())
        .collect();
    assert_eq!(
        names,
        ["Trametes hirsuta", "Fomes fomentarius", "Stereum hirsutum"]
    );
    assert!(window.shows("1 of 1"));
    // Wilson, 1 of 1: 20.7 to 100 %, scipy.stats.binomtest(1, 1).proportion_ci(method="wilson").
    assert!(window.shows("100 % (21–100 %)"));
    assert!(window.shows("does not name a species"), "names are shown");
}

#[test]
fn files_of_the_book_are_made_and_never_written_over_unasked() {
    let folder = TempDir::new().expect("a folder");
    let mut window = with_voucher(&folder);
    window.press(Role::DisclosureTriangle, "Files of the book");
    window.press(Role::DisclosureTriangle, "Without a file dialog");
    let files = || -> Vec<String> {
        let entries = std::fs::read_dir(folder.path()).expect("a folder");
        let mut names: Vec<String> = entries
            .map(|entry| {
                entry
                    .expect("an entry")
                    .file_name()
                    .to_string_lossy()
                    .into_owned()
            })
            .filter(|name| !name.starts_with('.'))
            .collect();
        names.sort();
        names
    };
    let before = files();
    for (button, name) in [
        ("Report (PDF)", "report-2026-0001.pdf"),
        ("Report (HTML)", "report-2026-0001.html"),
        ("Labels (PDF)", "labels.pdf"),
        ("Table (CSV)", "vouchers.csv"),
        ("Darwin Core (ZIP)", "darwin-core.zip"),
        ("Walks (CSV)", "walks.csv"),
        ("Months (PDF)", "months.pdf"),
    ] {
        assert!(!before.contains(&name.to_owned()));
        window.press(Role::Button, button);
        assert!(files().contains(&name.to_owned()), "{name}: {:?}", files());
    }
    let made = files();
    window.press(Role::Button, "Labels (PDF)");
    assert!(window.shows("A file of that name is already there"));
    window.press(Role::Button, "Keep both");
    let mut both = made;
    both.push("labels-2.pdf".to_owned());
    both.sort();
    assert_eq!(files(), both);
}

#[test]
fn nothing_is_clipped_or_nameless_in_the_smallest_window() {
    let folder = TempDir::new().expect("a folder");
    let mut window = with_voucher(&folder);
    window.press(Role::Button, "Compare with published ranges");
    let small = Vec2::new(960.0, 640.0);
    let screen = egui::Rect::from_min_size(pos2(0.0, 0.0), small);
    for view in ["Photo", "Voucher", "Published ranges", "Book", "Walks"] {
        window.press(Role::Button, view);
        window.harness.set_size(small);
        window.settle();
        for role in [
            Role::Button,
            Role::TextInput,
            Role::ComboBox,
            Role::MultilineTextInput,
        ] {
            for control in window.harness.query_all_by_role(role) {
                let (rect, name) = (control.rect(), control.accesskit_node().label());
                assert!(
                    name.as_ref().is_some_and(|n| !n.is_empty()),
                    "{view}: {role:?} at {rect:?}"
                );
                assert!(
                    screen.x_range().contains(rect.left())
                        && screen.x_range().contains(rect.right()),
                    "{view}: {name:?} at {rect:?}"
                );
            }
        }
        window.harness.set_size(TALL);
        window.settle();
    }
}

#[test]
fn a_photo_of_another_voucher_is_attached_after_asking_and_can_be_taken_off() {
    let folder = TempDir::new().expect("a folder");
    let mut window = with_voucher(&folder);
    window.press(Role::Button, "New voucher");
    window.press(Role::Button, "Attach these findings");
    assert!(window.shows("This photo belongs to 2026-0001 already"));
    window.press(Role::Button, "Cancel");
    let count = |folder: &TempDir| {
        let book = Book::open(&book_in(folder)).expect("a book");
        book.vouchers().count()
    };
    assert_eq!(count(&folder), 1);
    window.press(Role::Button, "Attach these findings");
    window.press(Role::Button, "Attach to 2026-0002 too");
    assert_eq!(on_disk(&folder, "2026-0002").measurements.len(), 1);
    let off = window
        .harness
        .get_all_by_role(Role::Button)
        .filter_map(|node| node.accesskit_node().label())
        .find(|label| label.starts_with("Take ") && label.ends_with(" off"));
    window.press(Role::Button, &off.expect("a way back"));
    window.press(Role::Button, "Save voucher");
    assert!(on_disk(&folder, "2026-0002").measurements.is_empty());
    assert_eq!(on_disk(&folder, "2026-0001").measurements.len(), 1);
}
