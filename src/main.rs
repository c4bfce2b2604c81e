//! The `piecewright` command: arguments in, exit code out. What it does stands in [`command`].

mod command;

fn main() -> std::process::ExitCode {
    command::run().into()
}
