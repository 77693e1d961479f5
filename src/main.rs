//! The `overwinter` command.

fn main() -> std::process::ExitCode {
    overwinter::cli::main()
}
