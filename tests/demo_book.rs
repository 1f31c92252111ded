//! The demo book is whole, and all that can be made of a book can be made of it.

use poreline::book::{Gravity, Voucher, VoucherFigures, check, frequencies};
use poreline::demo;
use poreline::export::darwin_core::{ArchiveOptions, archive};
use poreline::export::{card_pdf::Paper, labels};
use poreline::progress::Progress;

#[test]
fn the_demo_book_is_whole() {
    let folder = tempfile::tempdir().expect("a folder");
    let book = demo::write(folder.path(), &Progress::default()).expect("the demo book");
    assert_eq!((book.vouchers().len(), book.forays().len()), (12, 8));
    let wrong: Vec<_> = check(&book, "2026-11-26")
        .into_iter()
        .filter(|one| one.gravity == Gravity::Wrong)
        .collect();
    assert!(wrong.is_empty(), "{wrong:?}");

    // 4.503 pores per mm are on it by construction (sample-images/truth.json); bound of 2 % as in samples.rs.
    let fine = book.voucher("AFFG-0114").expect("the voucher");
    let per_mm = VoucherFigures::of(fine).per_mm.expect("a figure").mean;
    assert!((per_mm / 4.503 - 1.0).abs() < 0.02, "{per_mm}");

    let most = &frequencies(&book.walks())[0];
    // Seen on five walks, and a voucher of a sixth.
    assert_eq!(
        (most.taxon.as_str(), most.walks, most.of),
        ("Trametes versicolor", 6, 8)
    );

    let vouchers: Vec<&Voucher> = book.vouchers().collect();
    let packed = archive(&book.card, &vouchers, &ArchiveOptions::default());
    assert!(packed.expect("an archive").len() > 10_000);
    let sheets = labels::sheets(&book.card, &vouchers, Paper::A4).expect("labels");
    assert!(sheets.starts_with(b"%PDF-1."));
}
