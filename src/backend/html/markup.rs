//! HTML as text: the one place where words are made harmless.

/// HTML while it is written.
#[derive(Debug, Default)]
pub(super) struct Markup {
    /// What is written so far.
    pub text: String,
}

impl Markup {
    /// Markup as it is.
    pub fn raw(&mut self, html: &str) -> &mut Self {
        self.text.push_str(html);
        self
    }

    /// Words, in an element or between the quotes of an attribute, with what means something there made harmless.
    pub fn words(&mut self, words: &str) -> &mut Self {
        for letter in words.chars() {
            match letter {
                '&' => self.text.push_str("&amp;"),
                '<' => self.text.push_str("&lt;"),
                '>' => self.text.push_str("&gt;"),
                '"' => self.text.push_str("&quot;"),
                letter if letter.is_control() => self.text.push(' '),
                letter => self.text.push(letter),
            }
        }
        self
    }

    /// An element with words in it, on a line; without a class where that is empty.
    pub fn element(&mut self, name: &str, class: &str, words: &str) -> &mut Self {
        self.raw("<").raw(name);
        if !class.is_empty() {
            self.raw(" class=\"").raw(class).raw("\"");
        }
        self.raw(">").words(words).raw("</").raw(name).raw(">\n")
    }

    /// An attribute whose value is words.
    pub fn attribute(&mut self, name: &str, words: &str) -> &mut Self {
        self.raw(" ").raw(name).raw("=\"").words(words).raw("\"")
    }
}

/// Whether an address may be linked: pages and letters, nothing that runs.
pub(super) fn safe(address: &str) -> bool {
    let address = address.to_ascii_lowercase();
    ["https://", "http://", "mailto:"].iter().any(|scheme| address.starts_with(scheme))
}

#[cfg(test)]
mod tests {
    use super::{Markup, safe};

    #[test]
    fn words_cannot_become_markup() {
        let mut out = Markup::default();
        out.element("p", "", "<b>&\"\u{7}").raw("<p").attribute("title", "\"><script>").raw(">");
        assert_eq!(out.text, "<p>&lt;b&gt;&amp;&quot; </p>\n<p title=\"&quot;&gt;&lt;script&gt;\">");
    }

    #[test]
    fn only_pages_and_letters_are_linked() {
        assert!(
            safe("https://harbour.example") && safe("HTTP://harbour.example") && safe("mailto:keeper@harbour.example")
        );
        for address in [
            "javascript:alert(1)",
            " https://harbour.example",
            "data:text/html,x",
            "file:///etc",
            "//harbour.example",
            "java\nscript:x",
        ] {
            assert!(!safe(address), "{address}");
        }
    }
}
