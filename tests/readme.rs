//! The README says what the program says today: its walk through the example, the picture's text, and
//! what it quotes of the pages of evidence.

use coolpath_tests::guide::figure::Figure;
use coolpath_tests::guide::worked::{FIGURES, Figures};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

/// Sentences of the walk and of the picture's text, each number by its name and its decimals.
const WALK: [&str; 18] = [
    "{climb.state} in “{compare.condition}”: CHT {climb.cht} °F, limit {input.head-limit} °F; odds that \
     both limits hold ≈ {climb.odds}.",
    "a {input.power} hp flat four",
    "two inlets of {input.inlet-width|1.23} × {input.inlet-height|1.2} in and an exit of {input.exit|1.2} in²",
    "It says “{climb.state}”",
    "the hottest CHT is {climb.cht} °F against a limit of {input.head-limit} °F",
    "the odds that both limits hold are about {climb.odds}",
    "The cold cruise, by contrast, is fine at {cold.cht} °F.",
    "Inlets of {size.both.width|1.23} × {size.both.height|1.23} in with a gap of {size.both.gap|1.23} in",
    "the odds of that size are only about {size.both.odds}",
    "a plenum buys {compare.plenum.speed-size|1.2} kt, and worn seals cost {compare.worn.speed-size|1.2} kt",
    "say {card.ground} °F: notch {card.climb.notch} of 6 in the climb, and {card.cruise.notch} in cruise",
    "from {proved.climb.before} to {proved.climb.after} °F, ± {proved.climb.either-way} °F",
    "generic heads, {default.reference.head_k} °F for fours and {default.reference.head_six_k} °F for sixes",
    "their range (±{model.generic} °F) is the spread between them",
    "median {reports.levels.bias} °F too cool, {reports.levels.inside} inside their band",
    "all {reports.changes.counted} have the right sign. For {reports.changes.inside} the band holds what was \
     reported, for {reports.changes.middle} its middle; of the {reports.unfitted.counted} to which nothing was \
     fitted, {reports.unfitted.inside} and {reports.unfitted.middle}.",
    "cools heads by {reports.R29a.predicted} °F where {reports.R29a.reported} was reported",
    "cools by {reports.R01a.predicted} °F where {reports.R01a.reported} was reported",
];

/// Sentences about the flights.
const FLIGHTS: [&str; 4] = [
    "the hottest head of its {flights.hottest.windows} other healthy windows comes out \
     {flights.hottest.bias|1.2} °F too cool on average ({flights.hottest.rms|1.2} °F rms), the mean head \
     {flights.mean.bias|1.2} °F too cool ({flights.mean.rms|1.2} rms), the oil {flights.oil.bias|1.2} °F too \
     cool ({flights.oil.rms|1.2} rms)",
    "{flights.hottest.held} of {flights.hottest.windows} hottest heads lie in their band",
    "then {flights.F06.rms|1.2} and {flights.F08.rms|1.2} °F off (rms)",
    "comes out {flights.lean.bias|1.2} °F too cool ({flights.lean.rms|1.2} rms)",
];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("the project")
}

fn text(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

/// The README with blanks drawn together.
fn readme() -> String {
    let words: Vec<String> = text("README.md")
        .split_whitespace()
        .map(str::to_owned)
        .collect();
    words.join(" ")
}

/// The worked example's figures, and those of the two pages of evidence.
static ALL: LazyLock<Figures> = LazyLock::new(|| {
    let mut figures = FIGURES.clone();
    let mut put = |name: &str, text: &str| {
        let size = number(text).abs();
        figures.insert(name.to_owned(), Figure::plain(size));
    };
    // Other tests compare both pages with a fresh run.
    let reports = text("reference/reports/reports_table.md");
    let levels = between(&reports, "that are no bounds ", " inside.");
    let (bias, inside) = levels.split_once(" °F; ").expect("two numbers");
    assert!(number(bias) < 0.0, "the README says too cool: {bias}");
    put("reports.levels.bias", bias);
    put("reports.levels.inside", inside);
    for (name, group) in [
        ("changes", "all"),
        ("unfitted", "all that nothing was fitted to"),
    ] {
        let row = row(&reports, &[group]);
        assert_eq!(row[1], row[3], "the README says that all signs are right");
        put(&format!("reports.{name}.counted"), row[1]);
        put(&format!("reports.{name}.inside"), row[4]);
        put(&format!("reports.{name}.middle"), row[5]);
    }
    for id in ["R29a", "R01a"] {
        let row = row(&reports, &[id]);
        put(&format!("reports.{id}.reported"), row[3]);
        put(&format!("reports.{id}.predicted"), row[4]);
    }
    let flights = text("reference/flights/flight_table.md");
    let whole = between(&flights, "# Fitted on F01, climbs and descents too", "\n# ");
    for (name, cells) in [
        ("hottest", ["other healthy flights", "head_hottest"]),
        ("mean", ["other healthy flights", "head_mean"]),
        ("oil", ["other healthy flights", "oil"]),
        ("F06", ["F06", "head_hottest"]),
        ("F08", ["F08", "head_hottest"]),
    ] {
        let row = row(whole, &cells);
        assert!(number(row[3]) < 0.0, "the README says too cool: {row:?}");
        put(&format!("flights.{name}.windows"), row[2]);
        put(&format!("flights.{name}.bias"), row[3]);
        put(&format!("flights.{name}.rms"), row[4]);
        put(&format!("flights.{name}.held"), row[5]);
    }
    let lean = between(&flights, "# Fitted on F01, steady windows alone", "\n# ");
    let row = row(lean, &["other healthy flights", "head_hottest"]);
    assert!(number(row[3]) < 0.0, "the README says too cool: {row:?}");
    put("flights.lean.bias", row[3]);
    put("flights.lean.rms", row[4]);
    figures
});

fn number(text: &str) -> f64 {
    text.trim()
        .replace('−', "-")
        .trim_start_matches('+')
        .parse()
        .unwrap_or_else(|_| panic!("{text:?} is no number"))
}

fn between<'a>(text: &'a str, from: &str, to: &str) -> &'a str {
    let start = text.find(from).unwrap_or_else(|| panic!("{from}")) + from.len();
    let length = text[start..].find(to).unwrap_or_else(|| panic!("{to}"));
    &text[start..start + length]
}

/// Cells of the first row of a table that begins with some cells.
fn row<'a>(text: &'a str, first: &[&str]) -> Vec<&'a str> {
    text.lines()
        .filter(|line| line.starts_with('|'))
        .map(|line| line.trim_matches('|').split('|').map(str::trim).collect())
        .find(|cells: &Vec<&str>| cells.starts_with(first))
        .unwrap_or_else(|| panic!("no row {first:?}"))
}

/// A sentence with its figures put in.
fn filled(template: &str) -> String {
    let mut said = String::new();
    let mut rest = template;
    while let Some((before, after)) = rest.split_once('{') {
        let (place, behind) = after.split_once('}').expect("a closed place");
        let (name, like) = place.split_once('|').unwrap_or((place, "1"));
        let figure = ALL
            .get(name)
            .unwrap_or_else(|| panic!("{name} is no figure"));
        said.push_str(before);
        said.push_str(&figure.text(like));
        rest = behind;
    }
    said + rest
}

#[test]
fn every_figure_of_the_readme_is_todays() {
    let readme = readme();
    let wrong: Vec<String> = WALK
        .iter()
        .chain(&FLIGHTS)
        .map(|template| filled(template))
        .filter(|said| !readme.contains(said))
        .collect();
    assert!(
        wrong.is_empty(),
        "the README should say:\n{}",
        wrong.join("\n")
    );
}

#[test]
fn no_number_of_the_walk_stands_outside_what_is_checked() {
    let readme = readme();
    let mut walk = between(&readme, "## First ten minutes", "## What it answers").to_owned();
    for template in &WALK {
        walk = walk.replace(&filled(template), "");
    }
    for unit in ["°F", "in", "in²", "kt", "%", "hp", "inH₂O"] {
        for (at, _) in walk.match_indices(&format!(" {unit}")) {
            let before = walk[..at].chars().next_back();
            assert!(
                !before.is_some_and(|c| c.is_ascii_digit()),
                "nothing checks a number before {unit}: {walk}"
            );
        }
    }
}

/// Width and height of a WebP in the extended format, px.
fn size_px(file: &Path) -> (u32, u32) {
    let bytes = fs::read(file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
    assert!(bytes.len() < 200_000, "{} bytes", bytes.len());
    assert_eq!(
        (&bytes[..4], &bytes[8..16]),
        (&b"RIFF"[..], &b"WEBPVP8X"[..])
    );
    // RFC 9649: 24 bits each, less one, behind the chunk's head and its flags.
    let side = |at: usize| 1 + u32::from_le_bytes([bytes[at], bytes[at + 1], bytes[at + 2], 0]);
    (side(24), side(27))
}

#[test]
fn both_pictures_are_there_and_small() {
    let readme = text("README.md");
    for theme in ["light", "dark"] {
        let name = format!("reference/pictures/readme-{theme}.webp");
        assert!(readme.contains(&format!("\"{name}\"")), "{name}");
        assert_eq!(size_px(&root().join(&name)), (1440, 900), "{name}");
    }
}

#[test]
fn every_file_that_the_readme_names_is_there() {
    let readme = text("README.md");
    let mut named: Vec<PathBuf> = Vec::new();
    for piece in readme.split("](").skip(1) {
        named.push(piece.split(')').next().expect("a target").into());
    }
    for piece in readme.split('`').skip(1).step_by(2) {
        let is_path = piece.contains('/') && !piece.contains([' ', '*', '<', ':']);
        if is_path && !piece.starts_with("dist/") {
            named.push(piece.into());
        }
    }
    assert!(named.len() > 6, "{named:?}");
    for path in named {
        assert!(root().join(&path).exists(), "{}", path.display());
    }
}
