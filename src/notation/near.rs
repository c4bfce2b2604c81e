//! Which known word an unknown one was likely meant to be.

/// The longest word that is compared; longer ones are like no other.
const LONGEST: usize = 48;

/// The candidate that lies nearest to the word, if one lies near enough to be offered: a third of its letters, at most three, may differ.
/// Of equally near ones the first. Capitals do not count. O(candidates × length²).
#[must_use]
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let word: Vec<char> = word.chars().take(LONGEST + 1).flat_map(char::to_lowercase).collect();
    if word.is_empty() || word.len() > LONGEST {
        return None;
    }
    let limit = (word.len() / 3).clamp(1, 3);
    let mut best = None;
    for candidate in candidates {
        let letters: Vec<char> = candidate.chars().take(LONGEST + 1).flat_map(char::to_lowercase).collect();
        // A word of one or two letters must share the first, lest anything be like anything.
        if word.len() <= 2 && letters.first() != word.first() {
            continue;
        }
        if letters.len().abs_diff(word.len()) > limit {
            continue;
        }
        let distance = distance(&word, &letters);
        if distance <= limit && best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

/// How many letters must be put in, taken out, changed or swapped with their neighbour to turn one word into the other.
fn distance(a: &[char], b: &[char]) -> usize {
    let mut two_back: Vec<usize> = Vec::new();
    let mut back: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, y) in b.iter().enumerate() {
            let change = back.get(j).map_or(usize::MAX, |&d| d + usize::from(x != y));
            let remove = back.get(j + 1).map_or(usize::MAX, |&d| d + 1);
            let insert = row.last().map_or(usize::MAX, |&d| d + 1);
            let mut least = change.min(remove).min(insert);
            if i > 0 && j > 0 && a.get(i - 1) == Some(y) && b.get(j - 1) == Some(x) {
                least = least.min(two_back.get(j - 1).map_or(usize::MAX, |&d| d + 1));
            }
            row.push(least);
        }
        two_back = std::mem::replace(&mut back, row);
    }
    back.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn offers_the_nearest_word_only_if_it_is_near() {
        let words = ["point", "points", "place", "paper"];
        assert_eq!(nearest("piont", words), Some("point"));
        assert_eq!(nearest("Points", words), Some("points"));
        assert_eq!(nearest("palce", words), Some("place"));
        assert_eq!(nearest("lighthouse", words), None);
        assert_eq!(nearest("", words), None);
        assert_eq!(nearest(&"p".repeat(4000), words), None);
    }

    #[test]
    fn counts_letters() {
        let d = |a: &str, b: &str| distance(&a.chars().collect::<Vec<_>>(), &b.chars().collect::<Vec<_>>());
        assert_eq!(d("gull", "gull"), 0);
        assert_eq!(d("gull", "hull"), 1);
        assert_eq!(d("gull", "glul"), 1);
        assert_eq!(d("", "gull"), 4);
        assert_eq!(d("tern", "stern"), 1);
    }
}
