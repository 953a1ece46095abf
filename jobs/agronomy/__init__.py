"""The pure core: values in, values out; no clock, network, database, log or chat."""
