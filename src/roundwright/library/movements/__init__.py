"""The shipped library, one TOML file a pattern."""
