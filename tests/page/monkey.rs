//! Somebody does anything at all, in no order: what was typed is there afterwards, byte for byte.
//!
//! The test keeps its own list of what it typed into number fields, and what stood in all of them
//! before each step that undo knows. A fixed seed draws the same deeds at every run.

use coolpath_core::document::table;
use coolpath_core::units::typed::{UnitSystem, parse};
use coolpath_tests::browser::{self, BrowserError, Page, Site};
use fastrand::Rng;
use std::collections::BTreeMap;
use std::time::{Duration, Instant};

const SEED: u64 = 20_417;
/// Deeds at most, and for how long they are done.
const DEEDS: usize = 120;
const TIME: Duration = Duration::from_secs(45);
/// Steps of undo that a reload keeps.
const STORED_STEPS: usize = 50;

/// Texts by the identifier of their field.
type Texts = BTreeMap<String, String>;

/// Good ones, and those that builders mistype.
const TEXTS: [&str; 22] = [
    "7", "7.25", "7,5", "7 1/2", "0.5", ".5", "10.", "12", "150", "1e1", "-", "−10", "-10", "",
    "wide", "99999", "7 kg", "180 mm", "6.5 in", " 7 ", "7'", "½",
];

/// Names of all number fields, without the place in a list.
fn number_fields() -> Vec<String> {
    table::all()
        .map(|input| input.id.replace('.', "-"))
        .collect()
}

/// Texts of all number fields that the form shows.
const SHOWN: &str = "const names = new Set(arguments[0]);\
    return [...document.querySelectorAll('input[type=text]')]\
        .filter((field) => names.has(field.id.replace(/-\\d+$/, '')) && /-\\d+$/.test(field.id))\
        .map((field) => [field.id, field.value]);";

/// Types as a paste does.
const PASTE: &str = "const field = document.getElementById(arguments[0]);\
    field.value = arguments[1]; field.dispatchEvent(new Event('input', { bubbles: true }));";

/// Takes another option of a list of the form.
const CHOOSE: &str = "const names = /^(engine|inlet|exit|decks|oil|cooler|shutter|condition)-[a-z_]+-\\d+$/;\
    const lists = [...document.querySelectorAll('.form select')].filter((list) => names.test(list.id));\
    const list = lists[arguments[0] % lists.length];\
    const others = [...list.options].filter((option) => option.value !== list.value && !option.disabled);\
    if (others.length === 0) return null;\
    list.value = others[arguments[1] % others.length].value;\
    list.dispatchEvent(new Event('change', { bubbles: true })); return list.id + ' ' + list.value;";

/// Presses the first button in a place whose words or label begin as given and that can be pressed.
const PRESS: &str = "const button = [...document.querySelectorAll(arguments[0] + ' button')].find((button) =>\
        !button.disabled && (button.textContent.trim().startsWith(arguments[1])\
            || (button.getAttribute('aria-label') ?? '').startsWith(arguments[1])));\
    if (button) button.click(); return button !== undefined;";

/// Nothing is being sized, of the design as it stands.
const SIZED: &str = "const panel = document.querySelector('#size');\
    return panel.querySelector('progress, .stale') === null\
        && panel.querySelector('table, [role=alert]') !== null;";

/// A size is offered.
const OFFERED: &str = "return [...document.querySelectorAll('#size button')]\
    .some((button) => button.textContent === 'Use this size');";

/// Whether a text in a number field is a value that the field permits.
fn is_valid(field: &str, text: &str, system: UnitSystem) -> bool {
    let name = field.rsplit_once('-').map_or(field, |(name, _)| name);
    let input = table::all().find(|input| input.id.replace('.', "-") == name);
    input.is_some_and(|input| {
        let (least, most) = input.permitted;
        let slack = 1e-9 * (most - least);
        parse(text, input.dimension, system)
            .is_ok_and(|value| value >= least - slack && value <= most + slack)
    })
}

/// A step that undo knows: the field that was being typed into, and all texts before it.
struct Step {
    field: Option<String>,
    before: Before,
}

#[derive(Clone)]
struct Before {
    typed: Texts,
    shown: Texts,
}

/// What the test knows of the page.
struct Monkey {
    page: Page,
    names: serde_json::Value,
    random: Rng,
    typed: Texts,
    past: Vec<Step>,
    future: Vec<Before>,
    done: Vec<String>,
}

impl Monkey {
    fn any<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.random.usize(..list.len())]
    }

    /// The texts of all number fields that are shown.
    async fn fields(&self) -> Result<Vec<(String, String)>, BrowserError> {
        let found = self.page.script(SHOWN, vec![self.names.clone()]).await?;
        serde_json::from_value(found.clone()).map_err(|_| BrowserError::Script(found.to_string()))
    }

    async fn shown(&self) -> Result<Texts, BrowserError> {
        let fields = self.fields().await?;
        Ok(fields.into_iter().collect())
    }

    async fn before(&self) -> Result<Before, BrowserError> {
        Ok(Before {
            typed: self.typed.clone(),
            shown: self.shown().await?,
        })
    }

    /// Remembers a step as undo does: letters of one word are one.
    fn remember(&mut self, field: Option<String>, before: Before) {
        let goes_on = field.is_some()
            && self.future.is_empty()
            && self.past.last().is_some_and(|last| last.field == field);
        if !goes_on {
            self.past.push(Step { field, before });
        }
        self.future.clear();
    }

    async fn press(&self, place: &str, words: &str) -> Result<bool, BrowserError> {
        let pressed = self
            .page
            .script(PRESS, vec![place.into(), words.into()])
            .await?;
        Ok(pressed.as_bool().unwrap_or_default())
    }

    /// Everything that was typed stands in its field, as far as that is shown.
    async fn check(&self, deed: &str) -> Result<Texts, BrowserError> {
        self.page.go("inputs").await?;
        let trail = || {
            let last = self.done.len().saturating_sub(12);
            format!(
                "seed {SEED}, after {deed}; before it {:#?}",
                &self.done[last..]
            )
        };
        let stopped =
            "const said = document.querySelector('#failure'); return said === null || said.hidden;";
        let sound = self.page.script(stopped, vec![]).await?;
        assert_eq!(sound.as_bool(), Some(true), "the page stopped: {}", trail());
        let shown = self.shown().await?;
        for (id, text) in &self.typed {
            if let Some(there) = shown.get(id) {
                assert_eq!(there, text, "in {id}: {}", trail());
            }
        }
        Ok(shown)
    }

    async fn type_something(&mut self) -> Result<String, BrowserError> {
        let fields = self.fields().await?;
        let (id, present) = fields[self.random.usize(..fields.len())].clone();
        let text = self.any(&TEXTS).to_owned();
        if present == text {
            return Ok(format!("“{text}” stands in {id}"));
        }
        self.paste(&id, &text).await
    }

    async fn paste(&mut self, id: &str, text: &str) -> Result<String, BrowserError> {
        let before = self.before().await?;
        self.page
            .script(PASTE, vec![id.into(), text.into()])
            .await?;
        self.remember(Some(id.to_owned()), before);
        self.typed.insert(id.to_owned(), text.to_owned());
        Ok(format!("“{text}” into {id}"))
    }

    async fn choose_something(&mut self) -> Result<String, BrowserError> {
        let before = self.before().await?;
        let (list, option) = (self.random.u16(..), self.random.u16(..));
        let chosen = self
            .page
            .script(CHOOSE, vec![list.into(), option.into()])
            .await?;
        if let Some(chosen) = chosen.as_str() {
            self.remember(None, before);
            return Ok(format!("choosing {chosen}"));
        }
        Ok("nothing to choose".to_owned())
    }

    /// Other units show valid texts anew and keep the others.
    async fn switch_units(&mut self) -> Result<String, BrowserError> {
        const SWITCH: &str = "const list = document.querySelector('#units');\
            list.value = list.value === 'metric' ? 'customary' : 'metric';\
            list.dispatchEvent(new Event('change', { bubbles: true })); return list.value;";
        let before = self.before().await?;
        let chosen = self.page.script(SWITCH, vec![]).await?;
        let (from, to) = match chosen.as_str() {
            Some("metric") => (UnitSystem::Customary, UnitSystem::Metric),
            _ => (UnitSystem::Metric, UnitSystem::Customary),
        };
        self.typed.retain(|id, text| !is_valid(id, text, from));
        // A text that means something in the new units is a step.
        if self.typed.iter().any(|(id, text)| is_valid(id, text, to)) {
            self.remember(None, before);
        }
        Ok(format!("units {to:?}"))
    }

    async fn keep_and_adopt(&mut self) -> Result<String, BrowserError> {
        let before = self.before().await?;
        self.page.go("compare").await?;
        if self.press("#compare", "Adopt").await? {
            self.remember(None, before);
            // What is typed belongs to the installation that goes.
            self.typed.retain(|id, _| id.starts_with("condition-"));
            return Ok("adopting".to_owned());
        }
        if self.press("#compare", "Worn seals").await? {
            self.remember(None, before);
            return Ok("keeping worn seals".to_owned());
        }
        Ok("nothing to adopt".to_owned())
    }

    async fn take_a_size(&mut self) -> Result<String, BrowserError> {
        let before = self.before().await?;
        self.page.go("size").await?;
        self.page.until("the end of the sizing", SIZED).await?;
        if !self.press("#size", "Use this size").await? {
            return Ok("no size to take".to_owned());
        }
        self.remember(None, before);
        self.page.go("inputs").await?;
        let shown = self.shown().await?;
        // What was typed for an opening goes where its size is another one now.
        self.typed.retain(|id, text| {
            let opening = id.starts_with("inlet-") || id.starts_with("exit-");
            !opening || shown.get(id).is_none_or(|there| there == text)
        });
        Ok("taking a size".to_owned())
    }

    async fn look_around(&mut self) -> Result<String, BrowserError> {
        let place = self.any(&["design", "results", "decide", "fly", "workshop", "report"]);
        self.page.go(place).await?;
        Ok(format!("a look at {place}"))
    }

    async fn reload(&mut self) -> Result<String, BrowserError> {
        self.page.reload().await?;
        self.page
            .until(
                "the page again",
                "return document.querySelector('.verdict') !== null;",
            )
            .await?;
        // A word is at its end, and the oldest steps are given up.
        self.past.iter_mut().for_each(|step| step.field = None);
        let forgotten = self.past.len().saturating_sub(STORED_STEPS);
        self.past.drain(..forgotten);
        Ok("a reload".to_owned())
    }

    async fn undo(&mut self) -> Result<String, BrowserError> {
        let here = self.before().await?;
        let pressed = self.press("header", "Undo").await?;
        assert_eq!(pressed, !self.past.is_empty(), "undo after {:?}", self.done);
        if let Some(Step { before, .. }) = self.past.pop() {
            self.future.push(here);
            self.stands_as(before, "undo").await?;
        }
        Ok("undo".to_owned())
    }

    async fn redo(&mut self) -> Result<String, BrowserError> {
        let here = self.before().await?;
        let pressed = self.press("header", "Redo").await?;
        assert_eq!(
            pressed,
            !self.future.is_empty(),
            "redo after {:?}",
            self.done
        );
        if let Some(after) = self.future.pop() {
            self.past.push(Step {
                field: None,
                before: here,
            });
            self.stands_as(after, "redo").await?;
        }
        Ok("redo".to_owned())
    }

    /// Every number field reads as it did.
    async fn stands_as(&mut self, then: Before, deed: &str) -> Result<(), BrowserError> {
        self.typed = then.typed;
        let shown = self.check(deed).await?;
        let differ: Vec<_> = shown
            .iter()
            .filter(|(id, text)| then.shown.get(*id) != Some(text))
            .map(|(id, text)| (id, text, then.shown.get(id)))
            .collect();
        assert!(
            differ.is_empty() && shown.len() == then.shown.len(),
            "seed {SEED}: {deed} leaves {differ:?} after {:?}",
            self.done
        );
        Ok(())
    }

    async fn deed(&mut self) -> Result<String, BrowserError> {
        match self.random.u8(..20) {
            0..=7 => self.type_something().await,
            8..=10 => self.choose_something().await,
            11 => self.switch_units().await,
            12 => self.keep_and_adopt().await,
            13 => self.take_a_size().await,
            14 => self.look_around().await,
            15 => self.reload().await,
            16..=18 => self.undo().await,
            _ => self.redo().await,
        }
    }
}

#[test]
fn a_monkey_loses_nothing_that_it_typed() {
    println!("seed {SEED}");
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        // A chance at which the example has a size to be taken.
        page.go("size").await?;
        page.unfold("#size .drawer").await?;
        page.type_into("Chance that both limits hold", "60").await?;
        page.until("a size", OFFERED).await?;
        page.go("inputs").await?;
        let mut monkey = Monkey {
            page: page.clone(),
            names: number_fields().into(),
            random: Rng::with_seed(SEED),
            typed: Texts::new(),
            past: Vec::new(),
            future: Vec::new(),
            done: Vec::new(),
        };
        // Texts that no size touches, and then a size.
        for (field, text) in [
            ("condition-oat_k-3", "-"),
            ("cooler-duct_diameter_m-0", "3,0"),
        ] {
            monkey.paste(field, text).await?;
        }
        let first = monkey.take_a_size().await?;
        assert_eq!(first, "taking a size");
        monkey.check(&first).await?;
        monkey.done.push(first);
        let start = Instant::now();
        while monkey.done.len() < DEEDS && start.elapsed() < TIME {
            page.go("inputs").await?;
            let deed = monkey.deed().await?;
            monkey.check(&deed).await?;
            monkey.done.push(deed);
        }
        monkey.reload().await?;
        monkey.check("the last reload").await?;
        println!(
            "{} deeds, {:?}: {:?}",
            monkey.done.len(),
            start.elapsed(),
            monkey.done
        );
        assert!(monkey.done.len() > 20, "only {} deeds", monkey.done.len());
        page.expect_no_faults().await
    });
}
