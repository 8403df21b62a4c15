//! A JSON text as a tree, by RFC 8259.

use std::str::Chars;

use super::Write;

/// How deep a text may nest: a shop needs four.
const DEPTH_MAX: usize = 128;

/// A JSON value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Tree {
    /// `null`
    Null,
    /// `true`, `false`
    Bool(bool),
    /// A number as it is written.
    Number(String),
    /// A text.
    String(String),
    /// A list.
    Array(Vec<Tree>),
    /// Names and what stands under them, as they stand.
    Object(Vec<(String, Tree)>),
}

/// Where a text is no JSON.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotJson {
    /// Line, from 1.
    pub line: usize,
    /// Character in that line, from 1; nought where the text ends before it has one.
    pub column: usize,
}

impl Tree {
    /// The tree of a text.
    ///
    /// # Errors
    /// [`NotJson`] says up to where it could be read.
    ///
    /// # Example
    /// ```
    /// # use bellows::json::{NotJson, Tree};
    /// let tree = Tree::parse(r#"{ "tank": "20 gal" }"#)?;
    /// assert_eq!(tree.get("tank"), Some(&Tree::String("20 gal".into())));
    /// assert_eq!(Tree::parse("[1,\n 2"), Err(NotJson { line: 2, column: 2 }));
    /// # Ok::<(), NotJson>(())
    /// ```
    pub fn parse(text: &str) -> Result<Self, NotJson> {
        let mut reader = Reader { rest: text.chars() };
        if let Some(tree) = reader.value(DEPTH_MAX) {
            reader.skip_blanks();
            if reader.rest.as_str().is_empty() {
                return Ok(tree);
            }
        }
        Err(reader.place_in(text))
    }

    /// What stands under a name of an object; where it comes twice, the last.
    pub fn get(&self, name: &str) -> Option<&Self> {
        let Self::Object(fields) = self else {
            return None;
        };
        let found = fields.iter().rev().find(|(known, _)| known == name);
        found.map(|(_, value)| value)
    }

    /// A number that counts something.
    pub fn as_count(&self) -> Option<u64> {
        match self {
            Self::Number(number) => number.parse().ok(),
            _ => None,
        }
    }

    /// The text, a field or an entry a line.
    pub fn pretty(&self) -> String {
        let mut out = String::new();
        self.write_pretty(&mut out, 0);
        out
    }

    fn write_pretty(&self, out: &mut String, depth: usize) {
        match self {
            Self::Array(items) if !items.is_empty() => {
                write_lines(out, ['[', ']'], depth, items, |item, out| {
                    item.write_pretty(out, depth + 1);
                });
            }
            Self::Object(fields) if !fields.is_empty() => {
                write_lines(out, ['{', '}'], depth, fields, |(name, value), out| {
                    name.write(out);
                    out.push_str(": ");
                    value.write_pretty(out, depth + 1);
                });
            }
            plain => plain.write(out),
        }
    }
}

fn write_lines<T>(
    out: &mut String,
    [open, close]: [char; 2],
    depth: usize,
    items: &[T],
    write: impl Fn(&T, &mut String),
) {
    let indent = "  ".repeat(depth);
    let mut before = open;
    for item in items {
        out.push(before);
        out.push('\n');
        out.push_str(&indent);
        out.push_str("  ");
        write(item, out);
        before = ',';
    }
    out.push('\n');
    out.push_str(&indent);
    out.push(close);
}

impl Write for Tree {
    fn write(&self, out: &mut String) {
        match self {
            Self::Null => out.push_str("null"),
            Self::Bool(on) => on.write(out),
            Self::Number(number) => out.push_str(number),
            Self::String(text) => text.write(out),
            Self::Array(items) => items.write(out),
            Self::Object(fields) => {
                let fields = fields
                    .iter()
                    .map(|(name, value)| (name.as_str(), value as &dyn Write));
                super::write_fields(out, &fields.collect::<Vec<_>>());
            }
        }
    }
}

/// Reads a text from the front. What cannot be read is `None`, and what is left then tells where.
struct Reader<'t> {
    rest: Chars<'t>,
}

impl Reader<'_> {
    /// The character that will not do, or the last one where the text ends too soon.
    fn place_in(&self, text: &str) -> NotJson {
        let read = text.strip_suffix(self.rest.as_str()).unwrap_or(text);
        let line = read.rsplit('\n').next().unwrap_or_default();
        NotJson {
            line: 1 + read.matches('\n').count(),
            column: line.chars().count() + usize::from(!self.rest.as_str().is_empty()),
        }
    }

    fn peek(&self) -> Option<char> {
        self.rest.clone().next()
    }

    /// Whether the next character is this one, which is then read.
    fn took(&mut self, wanted: char) -> bool {
        let there = self.peek() == Some(wanted);
        if there {
            self.rest.next();
        }
        there
    }

    fn skip_blanks(&mut self) {
        while matches!(self.peek(), Some(' ' | '\t' | '\n' | '\r')) {
            self.rest.next();
        }
    }

    fn value(&mut self, depth: usize) -> Option<Tree> {
        self.skip_blanks();
        match self.peek()? {
            '{' => self.object(depth.checked_sub(1)?),
            '[' => self.array(depth.checked_sub(1)?),
            '"' => self.text().map(Tree::String),
            't' => self.word("true", Tree::Bool(true)),
            'f' => self.word("false", Tree::Bool(false)),
            'n' => self.word("null", Tree::Null),
            _ => self.number(),
        }
    }

    fn word(&mut self, word: &str, value: Tree) -> Option<Tree> {
        word.chars().all(|c| self.took(c)).then_some(value)
    }

    fn object(&mut self, depth: usize) -> Option<Tree> {
        let mut fields = Vec::new();
        let mut more = self.begins('}');
        while more {
            self.skip_blanks();
            let name = self.text()?;
            self.skip_blanks();
            if !self.took(':') {
                return None;
            }
            fields.push((name, self.value(depth)?));
            more = self.goes_on('}')?;
        }
        Some(Tree::Object(fields))
    }

    fn array(&mut self, depth: usize) -> Option<Tree> {
        let mut items = Vec::new();
        let mut more = self.begins(']');
        while more {
            items.push(self.value(depth)?);
            more = self.goes_on(']')?;
        }
        Some(Tree::Array(items))
    }

    /// Reads an opening bracket; whether anything stands before the closing one.
    fn begins(&mut self, close: char) -> bool {
        self.rest.next();
        self.skip_blanks();
        !self.took(close)
    }

    /// Reads a comma, after which there must be more, or the closing bracket.
    fn goes_on(&mut self, close: char) -> Option<bool> {
        self.skip_blanks();
        if self.took(',') {
            return Some(true);
        }
        self.took(close).then_some(false)
    }

    fn text(&mut self) -> Option<String> {
        let mut text = String::new();
        if !self.took('"') {
            return None;
        }
        loop {
            match self.peek()? {
                c if c < ' ' => return None,
                '"' => break,
                '\\' => {
                    self.rest.next();
                    text.push(self.escaped()?);
                }
                c => {
                    self.rest.next();
                    text.push(c);
                }
            }
        }
        self.rest.next();
        Some(text)
    }

    fn escaped(&mut self) -> Option<char> {
        match self.rest.next()? {
            c @ ('"' | '\\' | '/') => Some(c),
            'b' => Some('\u{8}'),
            'f' => Some('\u{c}'),
            'n' => Some('\n'),
            'r' => Some('\r'),
            't' => Some('\t'),
            'u' => self.code_point(),
            _ => None,
        }
    }

    /// Four hexadecimal digits, or two times four for a character beyond the first 65,536 (a surrogate pair).
    fn code_point(&mut self) -> Option<char> {
        let first = self.four_digits()?;
        if !(0xD800..0xDC00).contains(&first) {
            return char::from_u32(first);
        }
        self.word("\\u", Tree::Null)?;
        let low = self
            .four_digits()?
            .checked_sub(0xDC00)
            .filter(|low| *low < 0x400)?;
        char::from_u32(0x1_0000 + ((first - 0xD800) << 10) + low)
    }

    fn four_digits(&mut self) -> Option<u32> {
        (0..4).try_fold(0, |code, _| Some(16 * code + self.rest.next()?.to_digit(16)?))
    }

    fn number(&mut self) -> Option<Tree> {
        let from = self.rest.as_str();
        self.took('-');
        if !self.took('0') {
            self.digits()?;
        }
        if self.took('.') {
            self.digits()?;
        }
        if self.took('e') || self.took('E') {
            let _signed = self.took('-') || self.took('+');
            self.digits()?;
        }
        let number = from.strip_suffix(self.rest.as_str())?;
        Some(Tree::Number(number.to_owned()))
    }

    /// At least one digit.
    fn digits(&mut self) -> Option<()> {
        let mut any = false;
        while self.peek().is_some_and(|c| c.is_ascii_digit()) {
            self.rest.next();
            any = true;
        }
        any.then_some(())
    }
}
