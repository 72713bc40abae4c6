//! The same numbers natively and in wasm, to the bit.
//!
//! Both kinds of test run in CI against one hash of the same thousand cases, so that a difference
//! of a single bit in either fails. The hash is a regression value: it changes with the physics or
//! a default, on purpose, and must then be replaced by what both agree on.

use coolpath_core::answer::pieces::Pieces;
use coolpath_core::answer::sampling::Sampling;
use coolpath_core::document::example;

/// Hash of the bits of 1002 conditions: the example's six with 167 draws each.
const HASH: u64 = 0x3873_f2ea_552d_308a;

fn hash() -> u64 {
    let design = example::design();
    let mut sampling = Sampling::new(&design, 167, 42).expect("the example");
    while sampling.advance(20) {}
    let mut hash = 0xcbf2_9ce4_8422_2325_u64;
    for place in 0..design.conditions.len() {
        for drawn in sampling.drawn(place) {
            let bits = drawn.map_or([0; 4], |d| {
                [d.head, d.oil, d.baffle_drop, d.drag].map(f64::to_bits)
            });
            for byte in bits.into_iter().flat_map(u64::to_le_bytes) {
                // FNV-1a, textbook constants.
                hash = (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
            }
        }
    }
    hash
}

#[cfg(not(target_arch = "wasm32"))]
#[test]
fn native_numbers_have_the_common_hash() {
    assert_eq!(hash(), HASH, "{:#018x}", hash());
}

#[cfg(target_arch = "wasm32")]
mod in_the_browser {
    use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

    wasm_bindgen_test_configure!(run_in_browser);

    #[wasm_bindgen_test]
    fn wasm_numbers_have_the_common_hash() {
        assert_eq!(super::hash(), super::HASH);
    }
}
