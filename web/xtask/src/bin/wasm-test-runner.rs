//! Runs the tests of one wasm file in a headless browser; `cargo test` starts it.
//!
//! It is the runner of wasm-bindgen's own command line, as a library, so that its version is in
//! `Cargo.lock` and nothing has to be installed.

fn main() -> anyhow::Result<()> {
    wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args(std::env::args_os())
}
