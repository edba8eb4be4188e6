"""The tables of the index, declared once.

Nothing that runs loads this module. First screen, update and build run plain
SQL that `generate` derives from these classes into `statements`. A record's
`key` sorts by instant, so that the newest rows are the last ones; `part` and
`build` are worked out from other records, everything else from its own file.
"""

from __future__ import annotations

from typing import ClassVar

from sqlalchemy import BigInteger, Index, Integer
from sqlmodel import Field, SQLModel

_KEY = BigInteger().with_variant(Integer(), "sqlite")


class Meta(SQLModel, table=True):
    """What the index as a whole is: its version, its project, its base commit."""

    __tablename__: ClassVar[str] = "meta"

    name: str = Field(primary_key=True)
    value: str


class File(SQLModel, table=True):
    """A record file as last read: its signature, its hash, the id it holds.

    `settled` means git vouches for it: the work tree, git's index and the base
    commit had the same content. Times in nanoseconds; -1 where the file was
    read too soon after it changed for its times to prove anything.
    """

    __tablename__: ClassVar[str] = "file"

    path: str = Field(primary_key=True)
    size: int = Field(sa_type=BigInteger)
    written_ns: int = Field(sa_type=BigInteger)
    changed_ns: int = Field(sa_type=BigInteger)
    inode: int = Field(sa_type=BigInteger)
    sha256: str
    settled: bool = Field(index=True)
    format: int
    record: str = Field(index=True)


class Folder(SQLModel, table=True):
    """A folder of records: when a name last came or went in it, nanoseconds."""

    __tablename__: ClassVar[str] = "folder"

    path: str = Field(primary_key=True)
    written_ns: int = Field(sa_type=BigInteger)
    changed_ns: int = Field(sa_type=BigInteger)
    inode: int = Field(sa_type=BigInteger)


class Row(SQLModel, table=True):
    """A record: of two files with one id only the first by path has a row.

    `moment` is its instant in microseconds since 1970 UTC, `offset_min` what
    its clock showed beyond UTC. `title_terms`, `body_terms` and `place_terms`
    are what search looks at.
    """

    __tablename__: ClassVar[str] = "record"
    __table_args__: ClassVar[tuple[Index, ...]] = (
        Index("record_entry", "entry", "key"),
        Index("record_kind", "kind", "key"),
        Index("record_part", "part", "key"),
        Index("record_build", "build", "key"),
    )

    key: int = Field(primary_key=True, sa_type=_KEY)
    id: str = Field(unique=True)
    path: str
    kind: str
    entry: bool
    title: str
    moment: int = Field(sa_type=BigInteger)
    offset_min: int
    summary: str
    value: str
    part: str
    build: str
    title_terms: str = Field(sa_column_kwargs={"info": {"search": 4.0}})
    body_terms: str = Field(sa_column_kwargs={"info": {"search": 1.0}})
    place_terms: str = Field(sa_column_kwargs={"info": {"search": 0.0}})


class Name(SQLModel, table=True):
    """A name a record answers to, folded; `now` is false for former ones."""

    __tablename__: ClassVar[str] = "name"
    __table_args__: ClassVar[tuple[Index, ...]] = (Index("name_record", "record"),)

    name: str = Field(primary_key=True)
    record: str = Field(primary_key=True)
    now: bool


class Mention(SQLModel, table=True):
    """A reference as written in a record's field, and the record it leads to."""

    __tablename__: ClassVar[str] = "mention"
    __table_args__: ClassVar[tuple[Index, ...]] = (
        Index("mention_id", "to_id"),
        Index("mention_name", "to_name"),
        Index("mention_target", "target"),
    )

    record: str = Field(primary_key=True)
    number: int = Field(primary_key=True)
    field: str
    to_id: str
    to_name: str
    target: str


class Reading(SQLModel, table=True):
    """A reading of a measuring run, as typed and exact in the base unit."""

    __tablename__: ClassVar[str] = "reading"
    __table_args__: ClassVar[tuple[Index, ...]] = (Index("reading_moment", "moment"),)

    record: str = Field(primary_key=True)
    number: int = Field(primary_key=True)
    id: str
    moment: int = Field(sa_type=BigInteger)
    what: str
    what_id: str
    place: str
    state: str
    value: str
    dimension: str
    base: str


class Fault(SQLModel, table=True):
    """A problem found in a file when it was read."""

    __tablename__: ClassVar[str] = "problem"

    path: str = Field(primary_key=True)
    number: int = Field(primary_key=True)
    line: int
    field: str
    found: str
    accepted: str


TABLES: tuple[type[SQLModel], ...] = (
    Meta,
    File,
    Folder,
    Row,
    Name,
    Mention,
    Reading,
    Fault,
)
"""The tables of the index, in the order they are made."""
