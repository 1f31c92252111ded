//! Finding vouchers as one types.

use super::voucher::Voucher;
use serde_json::Value;

/// All text of all vouchers, in memory and in lower case.
#[derive(Debug, Clone, Default)]
pub struct Index {
    texts: Vec<String>,
}

impl Index {
    /// Reads the vouchers' text: numbers, names, people, places, notes, whatever the keys.
    #[must_use]
    pub fn of(vouchers: &[Voucher]) -> Self {
        Self {
            texts: vouchers.iter().map(text_of).collect(),
        }
    }

    /// Takes in a voucher anew, or one more at the end.
    pub fn update(&mut self, at: usize, voucher: &Voucher) {
        let text = text_of(voucher);
        match self.texts.get_mut(at) {
            Some(old) => *old = text,
            None => self.texts.push(text),
        }
    }

    /// Vouchers that hold every word typed, anywhere and in any case; all of them where none is typed.
    #[must_use]
    pub fn find(&self, typed: &str) -> Vec<usize> {
        let typed = typed.to_lowercase();
        let words: Vec<&str> = typed.split_whitespace().collect();
        (self.texts.iter().enumerate())
            .filter(|(_, text)| words.iter().all(|word| text.contains(word)))
            .map(|(at, _)| at)
            .collect()
    }
}

fn text_of(voucher: &Voucher) -> String {
    let mut text = String::new();
    let mut add = |part: Option<&str>| {
        if let Some(part) = part {
            text.push_str(&part.to_lowercase());
            text.push('\n');
        }
    };
    for part in [
        Some(voucher.catalog_number.as_str()),
        voucher.name().as_deref(),
        voucher.scientific_name.as_deref(),
        voucher.recorded_by.as_deref(),
        voucher.identified_by.as_deref(),
        voucher.event_date.as_deref(),
        voucher.locality.as_deref(),
        voucher.habitat.as_deref(),
        voucher.host_wood.as_deref(),
        voucher.host_taxon.as_deref(),
        voucher.substrate.as_deref(),
        voucher.underside_colour.as_deref(),
        voucher.smell.as_deref(),
        voucher.disposition.as_deref(),
        voucher.occurrence_remarks.as_deref(),
    ] {
        add(part);
    }
    for former in &voucher.former_determinations {
        add(Some(&former.name()));
    }
    for attached in voucher.current() {
        add(attached
            .findings
            .pointer("/surface/type")
            .and_then(Value::as_str));
    }
    for value in voucher.other.values() {
        add(value.as_str());
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_has_to_be_there() {
        let mut first = Voucher::new("AF-0001");
        first.scientific_name = Some("Trametes versicolor".to_owned());
        first.identification_qualifier = Some("cf.".to_owned());
        first.locality = Some("Alder Fen, north ride".to_owned());
        let mut second = Voucher::new("AF-0002");
        second.locality = Some("Ottermouth".to_owned());
        let mut index = Index::of(&[first, second.clone()]);
        assert_eq!(index.find(""), [0, 1]);
        assert_eq!(index.find("af-000"), [0, 1]);
        assert_eq!(index.find("FEN versi"), [0]);
        assert_eq!(index.find("trametes cf. versicolor"), [0]);
        assert_eq!(index.find("fen ottermouth"), [] as [usize; 0]);
        second.smell = Some("anise".to_owned());
        index.update(1, &second);
        assert_eq!(index.find("anise"), [1]);
    }
}
