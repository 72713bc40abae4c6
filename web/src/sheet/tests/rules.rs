//! Rules that every drawing keeps.

use crate::sheet::ink::{CAPTION, FIELD, KEY, NUMBER, TAG_LABEL, TAG_VALUE};
use crate::sheet::point::{Area, Point, cross, point};
use crate::sheet::{Drawing, Request, Tag, TextWidth};

/// Whether two stretches touch.
fn cut(a: (Point, Point), b: (Point, Point)) -> bool {
    let side = |p: Point, q: Point, r: Point| cross(q.from(p), r.from(p));
    let (first, second) = (side(a.0, a.1, b.0), side(a.0, a.1, b.1));
    let (third, fourth) = (side(b.0, b.1, a.0), side(b.0, b.1, a.1));
    if first == 0.0 && second == 0.0 {
        // On one line: they touch if their boxes do.
        let (one, two) = (Area::between(a.0, a.1), Area::between(b.0, b.1));
        return one.left <= two.right
            && two.left <= one.right
            && one.top <= two.bottom
            && two.top <= one.bottom;
    }
    first * second <= 0.0 && third * fourth <= 0.0
}

fn edges(area: &Area) -> [(Point, Point); 4] {
    let corners = [
        point(area.left, area.top),
        point(area.right, area.top),
        point(area.right, area.bottom),
        point(area.left, area.bottom),
    ];
    [0, 1, 2, 3].map(|place| (corners[place], corners[(place + 1) % 4]))
}

/// No tag on another, no leader through a tag or across another leader.
fn tags_are_clear(tags: &[Tag], name: &str) {
    let stretches = |tag: &Tag| {
        tag.leader
            .windows(2)
            .map(|pair| (pair[0], pair[1]))
            .collect::<Vec<_>>()
    };
    for (place, tag) in tags.iter().enumerate() {
        for (other_place, other) in tags.iter().enumerate() {
            if place == other_place {
                continue;
            }
            assert!(
                tag.area.common(&other.area).is_none(),
                "{name}: {tag:?} on {other:?}"
            );
            for stretch in stretches(tag) {
                for edge in edges(&other.area) {
                    assert!(!cut(stretch, edge), "{name}: {tag:?} through {other:?}");
                }
                for crossed in stretches(other) {
                    assert!(!cut(stretch, crossed), "{name}: {tag:?} across {other:?}");
                }
            }
        }
    }
}

/// Least size of what is written on a drawing, px.
const SMALLEST: f64 = 13.0;

/// Boxes of the captions of the views and of the words of the key, as they are written.
fn words(svg: &str, widths: &dyn TextWidth) -> Vec<(String, Area)> {
    let mut found = Vec::new();
    for piece in svg.split("<text class=\"").skip(1) {
        let face = [CAPTION, KEY]
            .into_iter()
            .find(|face| piece.starts_with(&format!("{}\"", face.class)));
        let Some(face) = face else { continue };
        let (open, rest) = piece.split_once('>').expect("a text begins");
        let text = rest.split('<').next().unwrap_or_default();
        let number = |name: &str| -> f64 {
            let value = open.split(&format!(" {name}=\"")).nth(1).expect("a place");
            let value = value.split('"').next().unwrap_or_default();
            value.parse().expect("a number")
        };
        let width = face.width(text, widths);
        let left = match open.split("text-anchor=\"").nth(1) {
            Some(anchor) if anchor.starts_with("middle") => number("x") - 0.5 * width,
            Some(_) => number("x") - width,
            None => number("x"),
        };
        let top = number("y") - 0.75 * face.size;
        found.push((
            text.to_owned(),
            Area::sized(point(left, top), width, face.size),
        ));
    }
    found
}

/// No caption and no word of the key on another, or on a tag; none of them small.
fn words_are_clear(drawing: &Drawing, widths: &dyn TextWidth, name: &str) {
    let words = words(&drawing.svg, widths);
    assert!(!words.is_empty(), "{name}");
    for face in [CAPTION, KEY, NUMBER, TAG_LABEL, TAG_VALUE, FIELD] {
        assert!(face.size >= SMALLEST, "{}: {} px", face.class, face.size);
    }
    for (at, (text, area)) in words.iter().enumerate() {
        for (other, covered) in &words[at + 1..] {
            assert!(
                area.common(covered).is_none(),
                "{name}: “{text}” {area:?} on “{other}” {covered:?}"
            );
        }
        for tag in &drawing.tags {
            assert!(
                area.common(&tag.area).is_none(),
                "{name}: “{text}” on {tag:?}"
            );
        }
    }
}

/// The least that a reader of XML asks for: tags nest, attributes are quoted and stand once, texts
/// are escaped.
pub fn is_xml(text: &str, name: &str) {
    let mut open: Vec<&str> = Vec::new();
    let mut rest = text;
    while let Some(start) = rest.find('<') {
        let (between, tag) = rest.split_at(start);
        is_escaped(between, name);
        let end = tag.find('>').expect("a tag ends");
        let inside = &tag[1..end];
        rest = &tag[end + 1..];
        if let Some(closed) = inside.strip_prefix('/') {
            assert_eq!(open.pop(), Some(closed), "{name}");
            continue;
        }
        let alone = inside.ends_with('/');
        let inside = inside.trim_end_matches('/');
        let (element, attributes) = inside.split_once(' ').unwrap_or((inside, ""));
        assert!(
            element.chars().all(|c| c.is_ascii_alphanumeric()),
            "{name}: {element}"
        );
        let quotes: Vec<&str> = attributes.split('"').collect();
        assert!(quotes.len() % 2 == 1, "{name}: {inside}");
        let mut keys = Vec::new();
        for pair in quotes.chunks(2) {
            if let [key, value] = pair {
                assert!(key.trim_start().ends_with('='), "{name}: {inside}");
                assert!(!value.contains('<'), "{name}: {inside}");
                is_escaped(value, name);
                keys.push(key.trim());
            }
        }
        let count = keys.len();
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(count, keys.len(), "{name}: twice in {inside}");
        if !alone {
            open.push(element);
        }
    }
    assert!(open.is_empty(), "{name}: {open:?}");
}

fn is_escaped(text: &str, name: &str) {
    for after in text.split('&').skip(1) {
        let entity = after.split(';').next().unwrap_or_default();
        assert!(
            matches!(entity, "amp" | "lt" | "gt" | "quot" | "#39"),
            "{name}: &{entity}"
        );
    }
}

/// Draws, and checks everything that any drawing must satisfy.
pub fn checked(request: &Request, name: &str) -> Drawing {
    let drawing = Drawing::of(request);
    let frame = Area::sized(point(0.0, 0.0), request.width, request.height);
    assert!(
        frame.grown(0.5).holds(&drawing.bounds),
        "{name}: {:?} leaves the sheet",
        drawing.bounds
    );
    assert!(
        !drawing.svg.contains("NaN") && !drawing.svg.contains("inf"),
        "{name}"
    );
    tags_are_clear(&drawing.tags, name);
    words_are_clear(&drawing, request.widths, name);
    let least = if request.touch { 44.0 } else { 30.0 };
    for hit in &drawing.parts {
        assert!(frame.grown(0.01).holds(&hit.area), "{name}: {hit:?}");
        let small = hit.area.width().min(hit.area.height());
        assert!(small >= least - 0.01, "{name}: {hit:?}");
    }
    for field in &drawing.dimensions {
        for tag in &drawing.tags {
            let covered = tag.area.common(&field.area);
            assert!(covered.is_none(), "{name}: {field:?} on {tag:?}");
        }
    }
    drawing
}
