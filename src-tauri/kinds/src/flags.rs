//! The words for flags.

use ripening::Flag;

/// All flags with their words, in the order of the list.
const FLAGS: [(Flag, &str); 5] = [
    (Flag::Moldy, "moldy"),
    (Flag::Sheathed, "sheathed"),
    (Flag::BirdFed, "bird_fed"),
    (Flag::SterileFlorets, "sterile_florets"),
    (Flag::LodgedPlant, "lodged_plant"),
];

/// The word of a flag in head files and in the store.
pub fn flag_word(flag: Flag) -> &'static str {
    FLAGS
        .iter()
        .find(|(known, _)| *known == flag)
        .map_or("", |(_, word)| word)
}

/// The words of flags, in their order, with blanks between.
pub fn flag_words(flags: &[Flag]) -> String {
    let words: Vec<&str> = flags.iter().map(|flag| flag_word(*flag)).collect();
    words.join(" ")
}

/// The flag of a word.
pub fn flag_from_word(word: &str) -> Option<Flag> {
    FLAGS
        .iter()
        .find(|(_, known)| *known == word)
        .map(|(flag, _)| *flag)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_are_those_of_the_wire() {
        for (flag, word) in FLAGS {
            assert_eq!(serde_json::to_value(flag).unwrap(), word);
            assert_eq!(flag_from_word(flag_word(flag)), Some(flag));
        }
        assert_eq!(flag_from_word("golden"), None);
    }
}
