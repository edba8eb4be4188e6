"""The kinds of records: what each keeps, and the words it is written with."""
