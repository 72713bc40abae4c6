//! Hottest head over the length of a widening duct.

use crate::charts::canvas::Role;
use crate::charts::figure::{Figure, Size};
use crate::charts::lines::{LineChart, Series};
use coolpath_core::decide::duct_length::{Duct, Lengths, Row};
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};

/// Lengths of a widening duct with what they are drawn from.
pub struct View<'a> {
    /// The lengths.
    pub found: &'a Lengths,
    /// Name of the condition.
    pub condition: &'a str,
    /// Limit of the heads, K.
    pub limit_k: f64,
    /// Units shown.
    pub system: UnitSystem,
    /// Space for the chart.
    pub size: Size,
}

/// Hottest head over the length, with the design's own area ratio and with the best.
///
/// # Arguments
/// * `title` - the answer
#[must_use]
pub fn figure(view: &View<'_>, title: &str) -> Figure {
    let (found, system) = (view.found, view.system);
    let length = Dimension::Length.shown(system);
    let temperature = Dimension::Temperature.shown(system);
    let along = |row: &Row| length.from_si(row.best.length_m);
    let head = |duct: &Duct| temperature.from_si(duct.answered.head_k);
    let series = |name, role, of: fn(&Row) -> &Duct| Series {
        name,
        role,
        points: found
            .rows
            .iter()
            .map(|row| (along(row), head(of(row))))
            .collect(),
        band: Vec::new(),
    };
    // Not where the sentence says that none pays.
    let pays = found
        .pays
        .filter(|_| found.worthwhile().is_some())
        .and_then(|at| found.rows.get(at));
    let topic = tr!("Hottest head over duct length, {}", view.condition);
    let chart = LineChart {
        crosses: Vec::new(),
        shades: Vec::new(),
        label: topic.clone(),
        along: tr!("length of the duct, {}", length.symbol),
        up: tr!("hottest head, {}", temperature.symbol),
        series: vec![
            series(tr("best ratio"), Role::First, |row| &row.best),
            series(tr("own ratio"), Role::Second, |row| &row.own),
        ],
        limits: limit_in_sight(view)
            .map(|kelvin| ("CHT", temperature.from_si(kelvin)))
            .into_iter()
            .collect(),
        marks: pays
            .map(|row| (along(row), tr("pays")))
            .into_iter()
            .collect(),
    };
    let cells = |duct: &Duct| {
        [
            rounded_text(duct.area_ratio, 3),
            format!("{:.2}", duct.recovery),
            format!("{:.1}", head(duct)),
        ]
    };
    let own = found.rows.first().map_or(1.0, |row| row.own.area_ratio);
    Figure {
        title: title.to_owned(),
        topic,
        sentence: tr!(
            "Full line: at each length the area ratio that recovers most; dashed: the ratio of {} in your inputs.",
            rounded_text(own, 3)
        ),
        svg: chart.svg(view.size),
        columns: vec![
            tr!("Length, {}", length.symbol),
            tr("Best area ratio").to_owned(),
            tr("Recovers, share of dynamic pressure").to_owned(),
            tr!("Hottest head, {}", temperature.symbol),
            tr("Own area ratio").to_owned(),
            tr("Recovers with it").to_owned(),
            tr!("Hottest head with it, {}", temperature.symbol),
        ],
        rows: found
            .rows
            .iter()
            .map(|row| {
                let length = rounded_text(along(row), 3);
                [vec![length], cells(&row.best).to_vec(), cells(&row.own).to_vec()].concat()
            })
            .collect(),
        source: tr(
            "Computed from your inputs; an estimate until flown. The loss of a clean cone is from an engineering \
             library, how much more a duct loses behind a real inlet is an assumption with a wide range.",
        )
            .to_owned(),
        readout: chart.readout(view.size, found.rows.iter().map(along).collect()),
    }
}

/// The limit of the heads, K, where it lies no farther from the lines than they are high.
fn limit_in_sight(view: &View<'_>) -> Option<f64> {
    let heads = view
        .found
        .rows
        .iter()
        .flat_map(|row| [row.own.answered.head_k, row.best.answered.head_k]);
    let (low, high) = heads.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), kelvin| {
        (low.min(kelvin), high.max(kelvin))
    });
    let beside = high - low;
    (low - beside..=high + beside)
        .contains(&view.limit_k)
        .then_some(view.limit_k)
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::decide::duct_length::DuctLengths;
    use coolpath_core::document::example;

    fn drawn(limit_k: f64, system: UnitSystem) -> Figure {
        drawn_of(&found(), limit_k, system)
    }

    fn found() -> Lengths {
        DuctLengths::new(&example::design(), 0, 1)
            .and_then(DuctLengths::finished)
            .expect("lengths")
    }

    fn drawn_of(found: &Lengths, limit_k: f64, system: UnitSystem) -> Figure {
        let view = View {
            found,
            condition: "Climb",
            limit_k,
            system,
            size: Size {
                width: 600,
                height: 280,
            },
        };
        figure(&view, "Answer")
    }

    #[test]
    fn each_length_has_a_row_in_the_units_shown_and_the_paying_one_a_mark() {
        let limit_k = example::design().installation.engine.head_limit.value;
        let figure = drawn(limit_k, UnitSystem::Customary);
        assert_eq!(figure.rows.len(), 23);
        assert_eq!(
            (figure.rows[0][0].as_str(), figure.rows[22][0].as_str()),
            ("2", "24")
        );
        assert_eq!(figure.rows[0][4], "1.8");
        assert!(figure.svg.contains("pays") && figure.svg.contains("limit 385"));
        assert_eq!(drawn(limit_k, UnitSystem::Metric).rows[0][0], "50.8");
    }

    #[test]
    fn where_no_duct_pays_as_a_whole_no_length_is_marked() {
        let mut useless = found();
        useless.without = useless.rows[useless.pays.expect("one pays")].best.answered;
        let figure = drawn_of(&useless, 520.0, UnitSystem::Customary);
        assert!(!figure.svg.contains(tr("pays")));
    }

    #[test]
    fn a_limit_far_from_the_lines_does_not_flatten_them() {
        assert!(!drawn(520.0, UnitSystem::Customary).svg.contains("limit"));
    }
}
