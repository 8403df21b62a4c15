//! Reads an equation as the page shows it, and does the sum: independent of the crate's own arithmetic.

use std::collections::BTreeMap;

/// Numbers by symbol.
pub type Known = BTreeMap<String, f64>;

#[derive(Clone, Debug, PartialEq)]
enum Token {
    Number(f64),
    Name(String),
    Function(String),
    Sign(char),
}

fn is_name(c: char) -> bool {
    c.is_alphabetic() || "₀₁₂₃₄₅₆₇₈₉′Σ".contains(c)
}

fn tokens(text: &str) -> Vec<Token> {
    let chars: Vec<char> = text.chars().collect();
    let (mut found, mut at) = (Vec::new(), 0);
    let run =
        |from: usize, keep: &dyn Fn(usize) -> bool| (from..chars.len()).take_while(|i| keep(*i)).count();
    while at < chars.len() {
        let c = chars[at];
        if c.is_ascii_digit() {
            // A comma belongs to a number only between digits.
            let digit = |i: usize| chars.get(i).is_some_and(char::is_ascii_digit);
            let long = run(at, &|i| digit(i) || (".,".contains(chars[i]) && digit(i + 1)));
            let text: String = chars[at..at + long].iter().filter(|c| **c != ',').collect();
            found.push(Token::Number(text.parse().unwrap_or(f64::NAN)));
            at += long;
        } else if is_name(c) {
            let long = run(at, &|i| is_name(chars[i]));
            let name: String = chars[at..at + long].iter().collect();
            at += long;
            let called = chars.get(at) == Some(&'(');
            found.push(if called {
                Token::Function(name)
            } else {
                Token::Name(name)
            });
        } else {
            if c != ' ' {
                found.push(Token::Sign(c));
            }
            at += 1;
        }
    }
    found
}

/// The statements of an equation, by the symbol that each defines.
pub fn statements(equation: &str) -> BTreeMap<String, String> {
    let lines = equation.lines().filter_map(|line| line.split_once(" = "));
    let whole = lines.filter(|(name, _)| name.chars().all(is_name));
    whole.map(|(name, right)| (name.into(), right.into())).collect()
}

/// Does the sums of one equation with what is known.
pub struct Sums<'a> {
    pub statements: &'a BTreeMap<String, String>,
    pub known: &'a Known,
}

impl Sums<'_> {
    /// The value of a symbol: known, or by its statement. One that stands in its own statement is found by repeating.
    pub fn value(&self, symbol: &str) -> Result<f64, String> {
        if let Some(value) = self.known.get(symbol) {
            return Ok(*value);
        }
        let right = self
            .statements
            .get(symbol)
            .ok_or(format!("{symbol} is not known"))?;
        let own = tokens(right).contains(&Token::Name(symbol.into()));
        let mut known = self.known.clone();
        // Any start above zero will do.
        let mut value = 1e6;
        for _ in 0..if own { 200 } else { 1 } {
            if own {
                known.insert(symbol.into(), value);
            }
            let inner = Sums {
                statements: self.statements,
                known: &known,
            };
            value = Reader {
                sums: inner,
                tokens: tokens(right),
                at: 0,
            }
            .sum()?;
        }
        Ok(value)
    }

    /// Every symbol that the statements use.
    pub fn used(&self) -> Vec<String> {
        let all = self.statements.values().flat_map(|right| {
            // What follows a comma outside brackets is a remark.
            let mut depth = 0;
            tokens(right).into_iter().take_while(move |token| {
                depth += match token {
                    Token::Sign('(') => 1,
                    Token::Sign(')') => -1,
                    _ => 0,
                };
                depth > 0 || *token != Token::Sign(',')
            })
        });
        all.filter_map(|token| match token {
            Token::Name(name) => Some(name),
            _ => None,
        })
        .collect()
    }
}

struct Reader<'a> {
    sums: Sums<'a>,
    tokens: Vec<Token>,
    at: usize,
}

impl Reader<'_> {
    fn next_is(&mut self, sign: char) -> bool {
        let is = self.tokens.get(self.at) == Some(&Token::Sign(sign));
        self.at += usize::from(is);
        is
    }

    fn sum(&mut self) -> Result<f64, String> {
        let mut value = self.product()?;
        loop {
            if self.next_is('+') {
                value += self.product()?;
            } else if self.next_is('−') {
                value -= self.product()?;
            } else {
                return Ok(value);
            }
        }
    }

    fn product(&mut self) -> Result<f64, String> {
        let mut value = self.power()?;
        loop {
            let beside = match self.tokens.get(self.at) {
                Some(Token::Sign(sign)) => "(√".contains(*sign),
                Some(_) => true,
                None => false,
            };
            if self.next_is('/') {
                value /= self.power()?;
            } else if self.next_is('×') || beside {
                value *= self.power()?;
            } else {
                return Ok(value);
            }
        }
    }

    fn power(&mut self) -> Result<f64, String> {
        let base = self.single()?;
        if self.next_is('²') {
            return Ok(base * base);
        }
        if self.next_is('^') {
            return Ok(base.powf(self.single()?));
        }
        Ok(base)
    }

    fn single(&mut self) -> Result<f64, String> {
        let token = self.tokens.get(self.at).cloned();
        self.at += 1;
        match token {
            Some(Token::Number(value)) => Ok(value),
            Some(Token::Name(name)) if name == "π" => Ok(std::f64::consts::PI),
            Some(Token::Name(name)) => self.sums.value(&name),
            Some(Token::Sign('(')) => {
                let value = self.sum()?;
                self.next_is(')')
                    .then_some(value)
                    .ok_or("no closing bracket".into())
            }
            Some(Token::Sign('√')) => Ok(self.power()?.sqrt()),
            Some(Token::Sign('−')) => Ok(-self.power()?),
            Some(Token::Function(name)) => self.function(&name),
            other => Err(format!("cannot read {other:?}")),
        }
    }

    fn function(&mut self, name: &str) -> Result<f64, String> {
        self.at += 1;
        let mut given = vec![self.sum()?];
        while self.next_is(',') {
            given.push(self.sum()?);
        }
        if !self.next_is(')') {
            return Err("no closing bracket".into());
        }
        match name {
            "min" => Ok(given.into_iter().fold(f64::INFINITY, f64::min)),
            "max" => Ok(given.into_iter().fold(f64::NEG_INFINITY, f64::max)),
            "ln" => Ok(given[0].ln()),
            "log₁₀" => Ok(given[0].log10()),
            _ => Err(format!("no function {name}")),
        }
    }
}

#[test]
fn the_reader_does_sums_as_they_are_written() {
    let sum = |equation: &str, known: &[(&str, f64)]| {
        let known: Known = known
            .iter()
            .map(|(name, value)| ((*name).into(), *value))
            .collect();
        Sums {
            statements: &statements(equation),
            known: &known,
        }
        .value("x")
    };
    assert_eq!(
        sum("x = 101,325 (1 − a b)/2, in Pa", &[("a", 0.5), ("b", 1.0)]),
        Ok(25_331.25)
    );
    assert_eq!(sum("x = min(a₁, 3)² + 2^a₁ y\ny = 1.5", &[("a₁", 2.0)]), Ok(10.0));
    assert_eq!(sum("x = √(x + 2)", &[]).map(|x| (x * 1e9).round() / 1e9), Ok(2.0));
    assert!(sum("x = a b", &[("a", 1.0)]).is_err());
}
