//! Where a link's fragment leads: a view, a page of it and a place on that page. Pure.

use crate::design::bench::Page;
use coolpath_core::language::tr;

/// A view of the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum View {
    /// The aircraft and its answers.
    Design,
    /// The three decisions and what supports them.
    Decide,
    /// Proving it in flight.
    Fly,
    /// Templates, areas, gauges.
    Workshop,
    /// The report.
    Report,
}

impl View {
    /// All views in their order.
    pub const ALL: [Self; 5] = [
        Self::Design,
        Self::Decide,
        Self::Fly,
        Self::Workshop,
        Self::Report,
    ];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Design => tr("Design"),
            Self::Decide => tr("Decide"),
            Self::Fly => tr("Fly"),
            Self::Workshop => tr("Workshop"),
            Self::Report => tr("Report"),
        }
    }

    /// Its fragment.
    #[must_use]
    pub fn fragment(self) -> &'static str {
        match self {
            Self::Design => "design",
            Self::Decide => "decide",
            Self::Fly => "fly",
            Self::Workshop => "workshop",
            Self::Report => "report",
        }
    }

    /// Lines of its sign on a narrow screen, in a box of 24.
    #[must_use]
    pub fn sign(self) -> &'static str {
        match self {
            Self::Design => "M3 15c3-8 8-9 18-9v10c-8 0-13 2-18-1ZM7 12h5",
            Self::Decide => "M12 21v-8M12 13L5 6M12 13l7-7M5 11V6h5M19 11V6h-5",
            Self::Fly => "M3 17l18-8M8 15l-4-5M13 12.8L9 4.5M3 21h18",
            Self::Workshop => "M3 8h18v8H3ZM7 8v3M11 8v4M15 8v3M19 8v4",
            Self::Report => "M6 3h9l4 4v14H6ZM9 11h7M9 15h7",
        }
    }
}

/// Where the page stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Route {
    /// View.
    pub view: View,
    /// Page of the design view.
    pub page: Page,
    /// Element to go to.
    pub anchor: Option<&'static str>,
}

/// Where the page stands without a fragment.
pub const START: Route = Route {
    view: View::Design,
    page: Page::Drawing,
    anchor: None,
};

/// Places on the views, by the identifiers of their elements.
const PLACES: [(&str, View, Page); 33] = [
    ("inputs", View::Design, Page::Inputs),
    ("section-aircraft", View::Design, Page::Inputs),
    ("section-engine", View::Design, Page::Inputs),
    ("section-inlets", View::Design, Page::Inputs),
    ("section-decks", View::Design, Page::Inputs),
    ("section-oil", View::Design, Page::Inputs),
    ("section-exit", View::Design, Page::Inputs),
    ("results", View::Design, Page::Results),
    ("answers", View::Design, Page::Results),
    ("one-condition", View::Design, Page::Results),
    ("practice", View::Design, Page::Results),
    ("cautions", View::Design, Page::Drawing),
    ("size", View::Decide, Page::Drawing),
    ("compare", View::Decide, Page::Drawing),
    ("card", View::Decide, Page::Drawing),
    ("climb", View::Decide, Page::Drawing),
    ("duct", View::Decide, Page::Drawing),
    ("lip", View::Decide, Page::Drawing),
    ("flight", View::Decide, Page::Drawing),
    ("sure", View::Decide, Page::Drawing),
    ("flight-test", View::Fly, Page::Drawing),
    ("test-cards", View::Fly, Page::Drawing),
    ("readings", View::Fly, Page::Drawing),
    ("log", View::Fly, Page::Drawing),
    ("calibrate", View::Fly, Page::Drawing),
    ("hot-day", View::Fly, Page::Drawing),
    ("before-after", View::Fly, Page::Drawing),
    ("changes", View::Fly, Page::Drawing),
    ("paper", View::Workshop, Page::Drawing),
    ("cut", View::Workshop, Page::Drawing),
    ("photo", View::Workshop, Page::Drawing),
    ("area-helper", View::Workshop, Page::Drawing),
    ("gauges", View::Workshop, Page::Drawing),
];

/// Where a fragment leads; `None` for one that is no place here, such as a shared design.
#[must_use]
pub fn route(fragment: &str) -> Option<Route> {
    if fragment.is_empty() {
        return Some(START);
    }
    if let Some(view) = View::ALL
        .into_iter()
        .find(|view| view.fragment() == fragment)
    {
        return Some(Route { view, ..START });
    }
    PLACES
        .iter()
        .find(|(name, ..)| *name == fragment)
        .map(|&(name, view, page)| Route {
            view,
            page,
            // A page of its own begins at its top.
            anchor: Some(name).filter(|name| !["inputs", "results"].contains(name)),
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_view_and_every_old_place_is_found_and_a_shared_design_is_none() {
        for view in View::ALL {
            let found = route(view.fragment()).expect("a route");
            assert_eq!((found.view, found.anchor), (view, None));
        }
        let size = route("size").expect("a route");
        assert_eq!((size.view, size.anchor), (View::Decide, Some("size")));
        assert_eq!(
            route("section-exit").map(|found| found.page),
            Some(Page::Inputs)
        );
        assert_eq!(route(""), Some(START));
        assert_eq!(route("coolpath1.abc"), None);
    }

    #[test]
    fn no_place_has_two_homes() {
        for (at, (name, ..)) in PLACES.iter().enumerate() {
            assert!(
                PLACES[..at].iter().all(|(other, ..)| other != name),
                "{name}"
            );
            assert!(
                View::ALL.iter().all(|view| view.fragment() != *name),
                "{name}"
            );
        }
    }
}
