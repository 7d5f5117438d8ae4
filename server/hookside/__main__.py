"""`python -m hookside` is `hookside`."""

import signal

if __name__ == "__main__":
    # Until a command says what an interrupt means to it, Ctrl+C ends the process without a word.
    signal.signal(signal.SIGINT, signal.SIG_DFL)

    from hookside.cli import main

    main(prog_name="hookside")
