//! Photos of vouchers, one a row: GBIF's *simple multimedia*.

use super::table::dcterms;
use crate::book::{BookCard, PhotoLink, Voucher};
use serde_json::Value;
use std::fmt::Write as _;

/// What a row is.
pub(super) const ROW_TYPE: &str = "http://rs.gbif.org/terms/1.0/Multimedia";

/// What the columns are, after the identifier of the occurrence.
pub(super) const TERMS: [&str; 8] = [
    dcterms!("type"),
    dcterms!("format"),
    dcterms!("identifier"),
    dcterms!("title"),
    dcterms!("description"),
    dcterms!("created"),
    dcterms!("license"),
    dcterms!("rightsHolder"),
];

/// Photos of a voucher, as rows. `at` is the address of the folder in which they lie on the web, with
/// the slash at its end; without it photos are told by their place in the book.
pub(super) fn rows(card: &BookCard, voucher: &Voucher, at: Option<&str>) -> Vec<Vec<String>> {
    voucher
        .photos
        .iter()
        .map(|photo| {
            let file = file_name(&photo.path);
            vec![
                voucher.occurrence_id.clone(),
                "StillImage".to_owned(),
                format_of(file).unwrap_or_default().to_owned(),
                format!("{}{}", at.unwrap_or("photos/"), in_address(file)),
                format!("Underside of {}", voucher.catalog_number),
                format!("SHA-256 {}", photo.sha256),
                taken(voucher, photo).unwrap_or_default(),
                card.license.clone().unwrap_or_default(),
                card.rights_holder.clone().unwrap_or_default(),
            ]
        })
        .collect()
}

/// The name without folders, which are nobody's business.
fn file_name(path: &str) -> &str {
    path.rsplit(['/', '\\']).next().unwrap_or(path)
}

/// Media type by the file's ending (IANA).
fn format_of(file: &str) -> Option<&'static str> {
    let (_, ending) = file.rsplit_once('.')?;
    Some(match ending.to_lowercase().as_str() {
        "jpg" | "jpeg" => "image/jpeg",
        "png" => "image/png",
        "tif" | "tiff" => "image/tiff",
        "webp" => "image/webp",
        "bmp" => "image/bmp",
        _ => return None,
    })
}

/// Letters that addresses take as they are (RFC 3986, 2.3); others become their bytes in hexadecimal.
fn in_address(file: &str) -> String {
    file.bytes().fold(String::new(), |mut address, byte| {
        if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
            address.push(char::from(byte));
        } else {
            // Writing to a string cannot fail.
            let _ = write!(address, "%{byte:02X}");
        }
        address
    })
}

/// When it was taken, as its findings tell.
fn taken(voucher: &Voucher, photo: &PhotoLink) -> Option<String> {
    let attached =
        (voucher.current().into_iter()).find(|attached| attached.photo() == Some(&photo.sha256))?;
    (attached.findings.pointer("/photo/taken"))
        .and_then(Value::as_str)
        .map(str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_photo_has_an_address_and_no_folder_of_ours() {
        let card = BookCard::new("Alder Fen Foray Group", "{number}");
        let mut voucher = Voucher::new("AF-1");
        for path in ["photos/Öd-01234567.JPG", "/home/ines/private/my photo.png"] {
            voucher.add_photo(PhotoLink {
                path: path.to_owned(),
                sha256: path.to_owned(),
                ..PhotoLink::default()
            });
        }
        let rows = rows(&card, &voucher, Some("https://example.org/fen/"));
        // UTF-8 of Ö is C3 96.
        assert_eq!(rows[0][3], "https://example.org/fen/%C3%96d-01234567.JPG");
        assert_eq!(rows[0][2], "image/jpeg");
        assert_eq!(rows[1][3], "https://example.org/fen/my%20photo.png");
        assert_eq!(
            super::rows(&card, &voucher, None)[1][3],
            "photos/my%20photo.png"
        );
    }
}
