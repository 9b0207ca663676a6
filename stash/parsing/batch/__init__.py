"""The plan of a batch, as TOML, csv or options, read into wants, mixes and limits."""
