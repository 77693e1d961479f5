//! A pocket calculator for tests: it knows arithmetic and nothing of heat pumps.

/// The value of an expression, symbols looked up by `of`. Panics on what it cannot read: the equation is then wrong.
pub fn calculate(expression: &str, of: &dyn Fn(&str) -> Option<f64>) -> f64 {
    let mut parser = Parser {
        tokens: tokens(expression),
        at: 0,
        of,
    };
    let value = parser.sum();
    assert_eq!(parser.at, parser.tokens.len(), "left over in {expression}");
    value
}

fn tokens(expression: &str) -> Vec<String> {
    let characters: Vec<char> = expression.chars().collect();
    let mut tokens = Vec::new();
    let mut at = 0;
    while at < characters.len() {
        let start = at;
        while at < characters.len() {
            let inside = at > start && characters.get(at + 1).is_some_and(|c| c.is_alphanumeric());
            let c = characters[at];
            if c.is_alphanumeric() || c == '_' || (matches!(c, '.' | ',') && inside) {
                at += 1;
            } else {
                break;
            }
        }
        if at == start {
            at += 1;
        }
        let token: String = characters[start..at].iter().collect();
        if !token.trim().is_empty() {
            tokens.push(token);
        }
    }
    tokens
}

struct Parser<'a> {
    tokens: Vec<String>,
    at: usize,
    of: &'a dyn Fn(&str) -> Option<f64>,
}

impl Parser<'_> {
    fn next_is(&mut self, wanted: &str) -> bool {
        let found = self
            .tokens
            .get(self.at)
            .is_some_and(|token| token == wanted);
        self.at += usize::from(found);
        found
    }

    fn sum(&mut self) -> f64 {
        let mut value = self.product();
        loop {
            if self.next_is("+") {
                value += self.product();
            } else if self.next_is("-") {
                value -= self.product();
            } else {
                return value;
            }
        }
    }

    fn product(&mut self) -> f64 {
        let mut value = self.power();
        loop {
            if self.next_is("·") {
                value *= self.power();
            } else if self.next_is("/") {
                value /= self.power();
            } else {
                return value;
            }
        }
    }

    fn power(&mut self) -> f64 {
        if self.next_is("-") {
            return -self.power();
        }
        let base = self.atom();
        if self.next_is("^") {
            base.powf(self.atom())
        } else {
            base
        }
    }

    fn atom(&mut self) -> f64 {
        if self.next_is("(") {
            let value = self.sum();
            assert!(self.next_is(")"), "a bracket is not closed");
            return value;
        }
        let token = self.tokens[self.at].clone();
        self.at += 1;
        if let Ok(number) = token.parse() {
            return number;
        }
        if !self.next_is("(") {
            return (self.of)(&token).unwrap_or_else(|| panic!("no number for `{token}`"));
        }
        let mut values = vec![self.sum()];
        while self.next_is(",") {
            values.push(self.sum());
        }
        assert!(self.next_is(")"), "a bracket is not closed");
        match token.as_str() {
            "min" => values.into_iter().fold(f64::INFINITY, f64::min),
            "max" => values.into_iter().fold(f64::NEG_INFINITY, f64::max),
            "exp" => values[0].exp(),
            other => panic!("no function `{other}`"),
        }
    }
}

#[test]
fn the_calculator_keeps_the_order_of_operations() {
    let of = |symbol: &str| (symbol == "C_max,e").then_some(-4.0);
    assert_eq!(calculate("2 + 3 · 4 / (1 - 3)", &of), -4.0);
    assert_eq!(calculate("max(0, 1 - C_max,e) · 2^2", &of), 20.0);
    assert_eq!(calculate("exp(-0 / 3) - (-4)", &of), 5.0);
}
