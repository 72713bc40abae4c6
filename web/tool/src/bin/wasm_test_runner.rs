//! Runs a WebAssembly test program in a headless browser, for `cargo test --target wasm32-unknown-unknown`.

use std::process::ExitCode;

fn main() -> ExitCode {
    match wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args(std::env::args_os()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("wasm-test-runner: {error:#}");
            ExitCode::FAILURE
        }
    }
}
