//! What a reader does on the page and sees there, and what the same core says when it runs outside a browser.

use std::time::{Duration, Instant};

use bellows::answer::report::View;
use bellows::shop::Shop;
use bellows::shop::link;
use serde_json::{Value, json};
use thirtyfour::{By, Key};

use crate::support::{Browser, Outcome, PATIENCE};

/// What the page says of a link or a file that was opened.
pub const NOTICE: &str = "[data-notice=link]";

/// The six fields of a label as printed on an invented machine: field and text.
pub const LABEL: [(&str, &str); 6] = [
    ("flow", "4.2 cfm"),
    ("tank", "20 gal"),
    ("amps", "11.5 A"),
    ("volts", "120 V"),
    ("cut_out", "125 psi"),
    ("price", "$420"),
];

/// Puts one field of the label into the first candidate of a shop.
pub fn put(shop: &mut Shop, field: &str, text: &str) {
    let label = &mut shop.candidates[0];
    let typed = match field {
        "flow" => &mut label.flow,
        "price" => &mut label.price,
        "cut_out" => &mut label.cut_out,
        "tank" => &mut label.tank,
        "power" => &mut label.power,
        "volts" => &mut label.volts,
        "amps" => &mut label.amps,
        other => unreachable!("no label has a field {other}"),
    };
    *typed = text.into();
}

/// The shop of a first visit with the whole [`LABEL`] typed in.
pub fn labelled() -> Shop {
    let mut shop = Shop::fresh();
    for (field, text) in LABEL {
        put(&mut shop, field, text);
    }
    shop
}

/// What the page is to show for a shop, by the same core compiled for this machine.
pub fn reckoned(shop: &Shop) -> Value {
    let report = bellows::answer::report(shop, View::default());
    let rows = |place: &bellows::answer::report::PlaceRows| {
        let tasks = place
            .tasks
            .iter()
            .map(|row| json!([row.task, row.grade, row.verdict]));
        let circuit = &place.circuit;
        json!({ "tasks": tasks.collect::<Vec<_>>(), "circuit": [circuit.grade, circuit.text] })
    };
    json!({
        "grade": report.answer.grade,
        "verdict": report.answer.verdict,
        "sentence": report.answer.sentence,
        "places": report.places.iter().map(rows).collect::<Vec<_>>(),
    })
}

/// Opens the folds that hide a node, as a reader does on the way to it.
const OPEN_FOLDS: &str = "const what = document.querySelector(WHAT); const more = document.getElementById('later-open'); if (what?.closest('.later') && more.getAttribute('aria-expanded') === 'false') more.click(); for (let fold = (what?.tagName === 'SUMMARY' ? what.parentElement.parentElement : what)?.closest('details'); fold; fold = fold.parentElement.closest('details')) fold.open = true;";

impl Browser {
    /// Waits until the worker has told all of the answer to what was typed last.
    pub async fn settle(&self) -> Outcome {
        self.until("document.documentElement.dataset.answer === 'settled'")
            .await
    }

    /// Waits until what was asked of the answer, a sum or a point of the map, has come.
    pub async fn told(&self) -> Outcome {
        self.until("(document.documentElement.dataset.calls ?? '0') === '0'")
            .await
    }

    /// Opens the folds that hide what a selector names.
    pub async fn unfold(&self, selector: &str) -> Outcome {
        self.js(&OPEN_FOLDS.replace("WHAT", &format!("{selector:?}")))
            .await?;
        Ok(())
    }

    /// What the page shows, in the shape of [`reckoned`].
    pub async fn shown(&self) -> Outcome<Value> {
        self.settle().await?;
        const SHOWN: &str = "
            const text = (node) => node?.textContent ?? '';
            const at = (id) => document.getElementById(id);
            const row = ({ dataset, children }) => [Number(dataset.task), dataset.grade, text(children[2].children[1])];
            const place = (node) => {
                const circuit = node.querySelector('.circuit > [data-finding]');
                return {
                    tasks: [...node.querySelectorAll('button[data-task]')].map(row),
                    circuit: [circuit?.dataset.grade ?? 'note', text(circuit?.querySelector('p'))],
                };
            };
            return {
                grade: at('answer').dataset.grade,
                verdict: text(at('verdict')),
                sentence: text(at('sentence')),
                places: [...document.querySelectorAll('[data-place]')].map(place),
            };";
        self.js(SHOWN).await
    }

    /// Presses keys in the field that a selector names, after what stands there.
    pub async fn press(&self, field: &str, keys: &str) -> Outcome {
        self.unfold(field).await?;
        self.driver.find(By::Css(field)).await?.send_keys(keys).await?;
        Ok(())
    }

    /// Types over what stands in a field.
    pub async fn retype(&self, field: &str, text: &str) -> Outcome {
        self.unfold(field).await?;
        let select =
            format!("const field = document.querySelector({field:?}); field.focus(); field.select();");
        self.js(&select).await?;
        self.press(field, text).await
    }

    /// Types over what stands in a field, and presses Enter.
    pub async fn enter(&self, field: &str, text: &str) -> Outcome {
        self.retype(field, text).await?;
        let field = self.driver.find(By::Css(field)).await?;
        field.send_keys(Key::Enter + "").await?;
        Ok(())
    }

    /// Opens the example.
    pub async fn open_example(&self) -> Outcome {
        self.js("document.getElementById('new-shop').click()").await?;
        Ok(())
    }

    /// Presses the button of these words within what a selector names.
    pub async fn press_words(&self, scope: &str, words: &str) -> Outcome {
        let press = format!(
            "[...document.querySelectorAll({:?})].find(({{ textContent }}) => textContent.startsWith({words:?})).click()",
            format!("{scope} button")
        );
        self.js(&press).await?;
        Ok(())
    }

    /// Goes to another fragment in the same tab, as a link that is tapped does.
    pub async fn follow(&self, fragment: &str) -> Outcome {
        self.js(&format!("location.hash = {fragment:?}")).await?;
        self.until(&format!("document.querySelector({NOTICE:?}) !== null"))
            .await
    }

    /// Waits until the address, which follows a moment after the last key, holds a shop, and gives it.
    pub async fn address_of(&self, shop: &Shop) -> Outcome<String> {
        let end = Instant::now() + PATIENCE;
        while Instant::now() < end {
            let address = self.js("return location.href").await?;
            let address = address.as_str().unwrap_or_default();
            let shown = self
                .js("return document.getElementById('link-text').value")
                .await?;
            if shown == address && link::read(address).is_ok_and(|read| read == *shop) {
                return Ok(address.to_owned());
            }
            tokio::time::sleep(Duration::from_millis(20)).await;
        }
        Err(format!("the address holds no such shop within {PATIENCE:?}").into())
    }

    /// Types the whole [`LABEL`].
    pub async fn type_label(&self) -> Outcome {
        for (field, text) in LABEL {
            self.retype(&format!("#{field}"), text).await?;
        }
        Ok(())
    }

    /// Brings what a selector names to the middle of the screen, and clicks there.
    pub async fn tap(&self, selector: &str) -> Outcome {
        // What comes late changes the folds above and below: a click is aimed once all of it is there.
        self.settle().await?;
        self.until(&format!("document.querySelector({selector:?}) !== null"))
            .await?;
        self.unfold(selector).await?;
        let show = format!("document.querySelector({selector:?}).scrollIntoView({{ block: 'center' }})");
        self.js(&show).await?;
        self.driver.find(By::Css(selector)).await?.click().await?;
        Ok(())
    }

    /// The text of what a selector names; blank if there is no such thing.
    pub async fn text(&self, selector: &str) -> Outcome<String> {
        self.settle().await?;
        let read = format!("return document.querySelector({selector:?})?.textContent ?? ''");
        Ok(self.js(&read).await?.as_str().unwrap_or_default().to_owned())
    }

    /// The text in the field that a selector names.
    pub async fn typed(&self, field: &str) -> Outcome<String> {
        let read = format!("return document.querySelector({field:?}).value");
        Ok(self.js(&read).await?.as_str().unwrap_or_default().to_owned())
    }

    /// All that the page has kept, by key.
    pub async fn kept(&self) -> Outcome<Value> {
        const KEPT: &str = "
            const shops = Object.entries(localStorage).filter(([key]) => /^bellows[.](shop|aside)[.]/.test(key));
            return Object.fromEntries(shops);";
        self.js(KEPT).await
    }

    /// Names the open shop and keeps it.
    pub async fn keep_as(&self, name: &str) -> Outcome {
        self.enter("#shop-name", name).await?;
        self.tap("#keep").await?;
        self.until(&format!("localStorage.getItem('bellows.shop.{name}') !== null"))
            .await
    }
}
