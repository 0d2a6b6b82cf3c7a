"""The subcommands of ``vorlib``, one module each."""
