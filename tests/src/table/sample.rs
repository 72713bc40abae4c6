//! What the tests of these files share.

use crate::table::Table;

const SAMPLE: &str = "\
id,quantity,inputs,role,value,tolerance,wet
A1,height,speed_kt=90 side=left,value,12.50,0.01,true
A2,\"width, net\",speed_kt=110,low,3e2,0,false
A3,depth,,high,,0,no
";

pub(super) fn sample() -> Table {
    Table::parse("sample.csv", SAMPLE)
}

pub(super) fn message(action: impl FnOnce() + std::panic::UnwindSafe) -> String {
    let cause = std::panic::catch_unwind(action).expect_err("it did not panic");
    cause
        .downcast_ref::<String>()
        .cloned()
        .unwrap_or_else(|| "no text".to_owned())
}
