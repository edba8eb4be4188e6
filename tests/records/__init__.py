"""Tests of records: text, ids, labels, snapshots."""
