"""The SQL of the index. Made by `generate.py`; do not edit."""

from __future__ import annotations

# fmt: off
# ruff: noqa: E501, Q000

VERSION = '7a93cb4cfa120e20'

CREATE = (
    'CREATE TABLE meta ( name VARCHAR NOT NULL, value VARCHAR NOT NULL, PRIMARY KEY (name) )',
    'CREATE TABLE file ( path VARCHAR NOT NULL, size BIGINT NOT NULL, written_ns BIGINT NOT NULL, changed_ns BIGINT NOT NULL, inode BIGINT NOT NULL, sha256 VARCHAR NOT NULL, settled BOOLEAN NOT NULL, format INTEGER NOT NULL, record VARCHAR NOT NULL, PRIMARY KEY (path) )',
    'CREATE TABLE folder ( path VARCHAR NOT NULL, written_ns BIGINT NOT NULL, changed_ns BIGINT NOT NULL, inode BIGINT NOT NULL, PRIMARY KEY (path) )',
    'CREATE TABLE record ( "key" INTEGER NOT NULL, id VARCHAR NOT NULL, path VARCHAR NOT NULL, kind VARCHAR NOT NULL, entry BOOLEAN NOT NULL, title VARCHAR NOT NULL, moment BIGINT NOT NULL, offset_min INTEGER NOT NULL, summary VARCHAR NOT NULL, value VARCHAR NOT NULL, part VARCHAR NOT NULL, build VARCHAR NOT NULL, title_terms VARCHAR NOT NULL, body_terms VARCHAR NOT NULL, place_terms VARCHAR NOT NULL, PRIMARY KEY ("key"), UNIQUE (id) )',
    'CREATE TABLE name ( name VARCHAR NOT NULL, record VARCHAR NOT NULL, now BOOLEAN NOT NULL, PRIMARY KEY (name, record) )',
    'CREATE TABLE mention ( record VARCHAR NOT NULL, number INTEGER NOT NULL, field VARCHAR NOT NULL, to_id VARCHAR NOT NULL, to_name VARCHAR NOT NULL, target VARCHAR NOT NULL, PRIMARY KEY (record, number) )',
    'CREATE TABLE reading ( record VARCHAR NOT NULL, number INTEGER NOT NULL, id VARCHAR NOT NULL, moment BIGINT NOT NULL, what VARCHAR NOT NULL, what_id VARCHAR NOT NULL, place VARCHAR NOT NULL, state VARCHAR NOT NULL, value VARCHAR NOT NULL, dimension VARCHAR NOT NULL, base VARCHAR NOT NULL, PRIMARY KEY (record, number) )',
    'CREATE TABLE problem ( path VARCHAR NOT NULL, number INTEGER NOT NULL, line INTEGER NOT NULL, field VARCHAR NOT NULL, found VARCHAR NOT NULL, accepted VARCHAR NOT NULL, PRIMARY KEY (path, number) )',
)

INDEXES = (
    'CREATE INDEX ix_file_record ON file (record)',
    'CREATE INDEX ix_file_settled ON file (settled)',
    'CREATE INDEX record_build ON record (build, "key")',
    'CREATE INDEX record_entry ON record (entry, "key")',
    'CREATE INDEX record_kind ON record (kind, "key")',
    'CREATE INDEX record_part ON record (part, "key")',
    'CREATE INDEX name_record ON name (record)',
    'CREATE INDEX mention_id ON mention (to_id)',
    'CREATE INDEX mention_name ON mention (to_name)',
    'CREATE INDEX mention_target ON mention (target)',
    'CREATE INDEX reading_moment ON reading (moment)',
)

CREATE_SEARCH = "CREATE VIRTUAL TABLE search USING fts5(title_terms, body_terms, place_terms, content='record', content_rowid='key', tokenize='ascii', detail=column, prefix='1 2 3')"

FILL_SEARCH = "INSERT INTO search (search) VALUES ('rebuild')"

ADD_SEARCH = 'INSERT INTO search (rowid, title_terms, body_terms, place_terms) VALUES (?, ?, ?, ?)'

DROP_SEARCH = "INSERT INTO search (search, rowid, title_terms, body_terms, place_terms) VALUES ('delete', ?, ?, ?, ?)"

WEIGHTS = '4.0, 1.0, 0.0'

COLUMNS = {
    'meta': ('name', 'value'),
    'file': ('path', 'size', 'written_ns', 'changed_ns', 'inode', 'sha256', 'settled', 'format', 'record'),
    'folder': ('path', 'written_ns', 'changed_ns', 'inode'),
    'record': ('key', 'id', 'path', 'kind', 'entry', 'title', 'moment', 'offset_min', 'summary', 'value', 'part', 'build', 'title_terms', 'body_terms', 'place_terms'),
    'name': ('name', 'record', 'now'),
    'mention': ('record', 'number', 'field', 'to_id', 'to_name', 'target'),
    'reading': ('record', 'number', 'id', 'moment', 'what', 'what_id', 'place', 'state', 'value', 'dimension', 'base'),
    'problem': ('path', 'number', 'line', 'field', 'found', 'accepted'),
}

INSERT = {
    'meta': 'INSERT OR REPLACE INTO "meta" ("name", "value") VALUES (?, ?)',
    'file': 'INSERT OR REPLACE INTO "file" ("path", "size", "written_ns", "changed_ns", "inode", "sha256", "settled", "format", "record") VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)',
    'folder': 'INSERT OR REPLACE INTO "folder" ("path", "written_ns", "changed_ns", "inode") VALUES (?, ?, ?, ?)',
    'record': 'INSERT OR REPLACE INTO "record" ("key", "id", "path", "kind", "entry", "title", "moment", "offset_min", "summary", "value", "part", "build", "title_terms", "body_terms", "place_terms") VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)',
    'name': 'INSERT OR REPLACE INTO "name" ("name", "record", "now") VALUES (?, ?, ?)',
    'mention': 'INSERT OR REPLACE INTO "mention" ("record", "number", "field", "to_id", "to_name", "target") VALUES (?, ?, ?, ?, ?, ?)',
    'reading': 'INSERT OR REPLACE INTO "reading" ("record", "number", "id", "moment", "what", "what_id", "place", "state", "value", "dimension", "base") VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)',
    'problem': 'INSERT OR REPLACE INTO "problem" ("path", "number", "line", "field", "found", "accepted") VALUES (?, ?, ?, ?, ?, ?)',
}
