//! The program; see [`rodreach`].

fn main() -> std::process::ExitCode {
    rodreach::cli::main()
}
