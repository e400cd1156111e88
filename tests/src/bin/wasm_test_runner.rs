//! Runs the tests of a wasm module in Node: Cargo calls it with the module that it built.

use std::error::Error;

fn main() -> Result<(), Box<dyn Error>> {
    Ok(wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args(std::env::args_os())?)
}
