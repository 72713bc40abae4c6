//! Logs of every kind are read, and no bytes make the reader fall over.

use coolpath_core::document::example;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::Reading;
use coolpath_core::prove::flights::sick_in;
use coolpath_core::prove::log::{
    ColumnUse, Criteria, Encoding, Fate, Kind, Layout, LogError, LogReader, LogTable,
    STEADY_DEGF_PER_MINUTE, Session, Why, encoding, guess, stretches,
};
use coolpath_tests::blocked_log;
use coolpath_tests::faulty_log;
use coolpath_tests::flight_log;
use coolpath_tests::table::{Table, compare};

fn read(text: &str) -> Result<LogTable, LogError> {
    let mut reader = LogReader::of(text.to_owned(), Layout::of(text))?;
    while reader.advance(500)? {}
    reader.finish()
}

fn sessions(text: &str) -> Vec<Session> {
    let table = read(text).expect("a log");
    Session::all(&table, &guess(&table), 1.0)
}

/// Sessions as text, in which a missing value is like another.
fn shown(text: &str) -> String {
    format!("{:?}", sessions(text))
}

#[test]
fn the_invented_flight_is_understood_column_by_column() {
    let text = flight_log::text(&example::design(), 1);
    let table = read(&text).expect("a log");
    assert_eq!(table.rows, flight_log::LENGTH_S as usize);
    let uses = guess(&table);
    let found: Vec<String> = uses
        .iter()
        .map(|used| match used {
            ColumnUse::Nothing => "-".to_owned(),
            ColumnUse::Clock => "clock".to_owned(),
            ColumnUse::Quantity(quantity, unit) => format!("{} {}", quantity.key(), unit.symbol()),
        })
        .collect();
    assert_eq!(
        found,
        [
            "clock",
            "altitude_m ft",
            "airspeed_m_s kt",
            "oat_k °C",
            "rpm rpm",
            "power_share %",
            "head_1_k °F",
            "head_2_k °F",
            "head_3_k °F",
            "head_4_k °F",
            "head_5_k °F",
            "oil_k °F",
            "baffle_drop_pa inH₂O",
            "-",
        ]
    );
    let session = &Session::all(&table, &uses, 1.0)[0];
    let fate = |quantity| session.channel(quantity).expect("there").fate;
    assert_eq!(fate(Quantity::Head5), Fate::Dead);
    assert_eq!(fate(Quantity::Head1), Fate::Kept);
    let oil = session.channel(Quantity::Oil).expect("there");
    assert_eq!(oil.set_aside.len(), 1);
    assert_eq!(oil.set_aside[0].row, 900);
    let found = stretches(session, &Criteria::default());
    let count = |kind| found.iter().filter(|stretch| stretch.kind == kind).count();
    assert_eq!((count(Kind::Climb), count(Kind::Descent)), (1, 1));
    // One for each cruise.
    assert_eq!(count(Kind::Steady), 2, "{found:?}");
}

#[test]
fn the_same_flight_reads_alike_in_other_clothes() {
    let plain = flight_log::text(&example::design(), 2);
    let expected = shown(&plain);
    // Semicolons and decimal commas, a byte-order mark, other line ends.
    let european = format!(
        "\u{feff}{}",
        plain
            .replace(',', ";")
            .replace('.', ",")
            .replace('\n', "\r\n")
    );
    assert!(shown(&european) == expected, "read otherwise");
    assert!(
        shown(&plain.replace(',', "\t")) == expected,
        "read otherwise"
    );
    // A line of facts with quotes inside, and a second line of names.
    let named = plain.replacen(
        '\n',
        "\nClk,Alt,IAS,OAT,RPM,Pwr,C1,C2,C3,C4,C5,OilT,dP,N\n",
        1,
    );
    let dressed = format!("#log,version=\"1.0\",unit=\"A\"\n{named}");
    assert!(shown(&dressed) == expected, "read otherwise");
}

#[test]
fn planted_faults_are_set_aside_and_what_is_none_is_kept() {
    let text = faulty_log::text();
    let found = sessions(&text);
    assert_eq!(found.len(), 2, "plain seconds that begin again");
    for session in &found {
        assert_eq!(session.rows.len(), faulty_log::LENGTH_S as usize);
        let channel = |quantity| session.channel(quantity).expect("there");
        let oil = &channel(Quantity::Oil).set_aside;
        let rows: Vec<u32> = oil.iter().map(|one| one.row as u32).collect();
        assert_eq!(rows, faulty_log::GLITCH.collect::<Vec<_>>());
        assert!(oil.iter().all(|one| one.why == Why::TooFast));
        for quantity in [Quantity::Manifold, Quantity::Rpm, Quantity::FuelFlow] {
            assert_eq!(channel(quantity).set_aside, [], "{quantity:?}");
        }
        assert_eq!(
            channel(Quantity::HEADS[faulty_log::LOW - 1]).fate,
            Fate::Doubtful
        );
        let cut = stretches(session, &Criteria::default());
        let ground: Vec<_> = cut.iter().filter(|own| own.kind == Kind::Ground).collect();
        assert_eq!(ground.len(), 1, "{cut:?}");
        assert!((ground[0].to_s - f64::from(faulty_log::GROUND_S)).abs() < 2.0);
        let steady: Vec<Reading> = cut
            .iter()
            .filter(|own| own.kind == Kind::Steady)
            .map(|own| own.reading(session, "steady"))
            .collect();
        assert!(!steady.is_empty());
        for sick in sick_in(&example::design(), &steady) {
            let told = sick.map(|sick| (usize::from(sick.cylinder), sick.fires));
            assert_eq!(told, Some((faulty_log::COLD, false)));
        }
    }
}

#[test]
fn a_nozzle_that_becomes_blocked_is_named_from_that_flight_on() {
    let design = example::design();
    let text = blocked_log::text(&design, &[false, true]);
    let flights = sessions(&text);
    assert_eq!(flights.len(), 2, "the clock begins anew");
    for (flight, blocked) in flights.iter().zip([false, true]) {
        let steady: Vec<Reading> = stretches(flight, &Criteria::default())
            .iter()
            .filter(|own| own.kind == Kind::Steady)
            .map(|own| Reading {
                log: "flight".to_owned(),
                ..own.reading(flight, "steady")
            })
            .collect();
        assert!(steady.len() >= 5, "{} windows", steady.len());
        for sick in sick_in(&design, &steady) {
            let told = sick.map(|sick| (usize::from(sick.cylinder), sick.fires));
            assert_eq!(told, blocked.then_some((blocked_log::BLOCKED, true)));
            if let Some(sick) = sick {
                assert!(
                    (sick.share - blocked_log::SHARE).abs() < 0.1,
                    "{}",
                    sick.share
                );
            }
        }
    }
}

#[test]
fn steady_is_what_the_rule_calls_steady() {
    compare(
        "rate below which a temperature counts as steady",
        |comparison| {
            let table = Table::read("cooling_test_rules");
            for row in table.rows_where(
                "quantity",
                "rate below which a temperature counts as steady",
            ) {
                comparison.row(&row, STEADY_DEGF_PER_MINUTE);
            }
        },
    );
}

/// Everything that a page does with a file's text.
fn use_up(text: &str) {
    let Ok(table) = read(text) else { return };
    let uses = guess(&table);
    for session in Session::all(&table, &uses, 0.5) {
        for stretch in stretches(&session, &Criteria::default()) {
            let _ = stretch.reading(&session, "one");
        }
    }
}

#[test]
fn no_bytes_make_the_reader_fall_over() {
    let mut random = fastrand::Rng::with_seed(4);
    let log = flight_log::text(&example::design(), 3);
    let short: String = log.lines().take(400).collect::<Vec<_>>().join("\n");
    for _ in 0..300 {
        let bytes: Vec<u8> = (0..random.usize(0..3000)).map(|_| random.u8(..)).collect();
        let _ = encoding(&bytes);
        use_up(&String::from_utf8_lossy(&bytes));
        // A log with some bytes changed to others, some of them meaning something.
        let mut bytes = short.clone().into_bytes();
        for _ in 0..random.usize(1..200) {
            let at = random.usize(0..bytes.len());
            bytes[at] = *random
                .choice(b",;\t|\"\n\r.:-0e9N \xff\xc3")
                .expect("some bytes");
        }
        bytes.truncate(random.usize(1..bytes.len()));
        let _ = encoding(&bytes);
        use_up(&String::from_utf8_lossy(&bytes));
    }
}

#[test]
fn extreme_numbers_are_set_aside_and_break_nothing() {
    let mut text = "Time,CHT1,CHT2,Oil Temp,IAS,Altitude\n".to_owned();
    for row in 0..400 {
        text.push_str(&format!("{row},1e308,-1e308,{},-5,1e300\n", row % 7));
    }
    use_up(&text);
    let found = sessions(&text);
    for channel in &found[0].channels {
        let (least, most) = channel.quantity.permitted();
        assert!(
            channel
                .values
                .iter()
                .all(|value| value.is_nan() || (*value >= least && *value <= most))
        );
    }
}

/// A line of facts, names of which one stands twice, units in a row of their own (outside air in
/// °C, all else in °F), semicolons, decimal commas, a dead probe, a spike of the oil's sender, and a
/// clock that begins again.
fn everything_at_once() -> String {
    let mut text = "\u{feff}#monitor;version=\"2\";tail=\"none\"\r\n\
         Session Time;OAT;CHT1;CHT2;CHT3;CHT1;Oil Temp\r\n\
         s;deg C;deg F;deg F;deg F;deg F;deg F\r\n"
        .to_owned();
    for session in 0..2 {
        for second in 0..60 {
            let warmer = f64::from(session * 10) + f64::from(second) / 30.0;
            let oil = if second == 20 { 999.0 } else { 190.0 + warmer };
            let row = format!(
                "{second};12.5;{:.1};{:.1};32.0;{:.1};{oil:.1}\r\n",
                380.0 + warmer,
                390.0 + warmer,
                381.0 + warmer
            );
            text.push_str(&row.replace('.', ","));
        }
    }
    text
}

#[test]
fn a_file_with_every_habit_at_once_is_read() {
    let found = sessions(&everything_at_once());
    assert_eq!(found.len(), 2, "the clock begins again");
    for (session, first_degf) in found.iter().zip([380.0, 390.0]) {
        assert_eq!(session.rows.len(), 60);
        let channel = |quantity| session.channel(quantity).expect("there");
        let degf = |quantity| channel(quantity).values[0] * 1.8 - 459.67;
        let outside_k = channel(Quantity::Oat).values[0];
        assert!((outside_k - 285.65).abs() < 1e-9, "{outside_k} K");
        // The first of two columns with one name.
        assert!((degf(Quantity::Head1) - first_degf).abs() < 1e-6);
        assert!((degf(Quantity::Oil) - degf(Quantity::Head1) + 190.0).abs() < 1e-6);
        assert_eq!(channel(Quantity::Head3).fate, Fate::Dead);
        assert_eq!(channel(Quantity::Head1).fate, Fate::Kept);
        let aside = &channel(Quantity::Oil).set_aside;
        assert_eq!(aside.len(), 1, "{aside:?}");
    }
}

#[test]
fn sixteen_bits_a_letter_are_told_in_either_order_with_and_without_a_mark() {
    let text = everything_at_once();
    for text in [text.as_str(), text.trim_start_matches('\u{feff}')] {
        let (low, high): (Vec<_>, Vec<_>) = text
            .encode_utf16()
            .map(|unit| (unit.to_le_bytes(), unit.to_be_bytes()))
            .unzip();
        assert_eq!(encoding(&low.concat()), Encoding::Utf16Le);
        assert_eq!(encoding(&high.concat()), Encoding::Utf16Be);
        assert_eq!(encoding(text.as_bytes()), Encoding::Utf8);
    }
}
