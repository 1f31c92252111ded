//! Sources of what is printed, numbered in the order in which they are named.

/// The sources named so far.
#[derive(Debug, Default)]
pub(super) struct Sources(Vec<String>);

impl Sources {
    /// Number of a source, from 1.
    pub(super) fn number(&mut self, source: String) -> usize {
        let known = self.0.iter().position(|known| *known == source);
        known.unwrap_or_else(|| {
            self.0.push(source);
            self.0.len() - 1
        }) + 1
    }

    /// All of them, in order.
    pub(super) fn all(self) -> Vec<String> {
        self.0
    }
}
