"""The database as it stands: which tables, in which shape, with which rows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, Final

from django.core.management.color import no_style
from django.db import connection
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder
from django.db.models import Field, FileField, Model, QuerySet

from starting.backup import Digest, Table, write_row
from starting.management.plain import Error

Names = tuple[tuple[str, str], ...]
LEFT_OUT: Final = ("sessions", "axes")  # who is signed in, and who tried to
MADE_WITH_TABLES: Final = ("auth.permission", "contenttypes.contenttype")
AT_ONCE: Final = 1000


def applied() -> Names:
    """Return the migrations this database has had; none if it has no tables."""
    return tuple(sorted(MigrationRecorder(connection).applied_migrations()))


def has_tables() -> bool:
    """Return whether anything stands in this database."""
    with connection.cursor() as cursor:
        return bool(connection.introspection.table_names(cursor))


def make_tables(names: Names) -> None:
    """Make the tables as they were after these migrations."""
    MigrationExecutor(connection).migrate(_last_of_each(names))


def models_at(names: Names) -> list[type[Model]]:
    """Return the kinds of rows after these migrations, without those left out.

    Raises:
        Error: a migration is not known here.
    """
    loader = MigrationLoader(connection)
    for app, name in names:
        if (app, name) not in loader.disk_migrations:
            raise Error(
                f"The backup was made by a newer version of the site: {app}.{name} is"
                " not known here."
            )
    told = loader.project_state(_last_of_each(names)).apps
    found = told.get_models(include_auto_created=True)
    kept = [m for m in found if name_of(m).partition(".")[0] not in LEFT_OUT]
    return sorted(kept, key=name_of)


def name_of(model: type[Model]) -> str:
    """Return what a table is called in a backup."""
    return str(model._meta.label_lower)  # noqa: SLF001 - Django's public door


def columns_of(model: type[Model]) -> tuple[str, ...]:
    """Return the columns of a table, in order."""
    return tuple(field.attname for field in _fields(model))


def rows_of(model: type[Model]) -> Iterator[list[Any]]:
    """Yield all rows as plain values, in the order of their keys (1 query)."""
    rows: QuerySet[Any, Any] = (
        QuerySet(model).order_by("pk").values_list(*columns_of(model))
    )
    for values in rows.iterator(chunk_size=AT_ONCE):
        yield write_row(values)


def table_of(model: type[Model]) -> Table:
    """Return what a table holds now: how many rows and their hash (1 query)."""
    told = Digest()
    for row in rows_of(model):
        told.add(row)
    return Table(
        name=name_of(model),
        columns=columns_of(model),
        rows=told.rows,
        sha256=told.sha256,
    )


def put_in(model: type[Model], rows: Iterable[list[Any]]) -> None:
    """Write rows as they stand: nothing is reckoned anew and nobody is told."""
    fields = _fields(model)
    for row in rows:
        values = {
            field.attname: field.to_python(value)
            for field, value in zip(fields, row, strict=True)
        }
        model(**values).save_base(raw=True, force_insert=True)


def files_named(models: Iterable[type[Model]]) -> set[str]:
    """Return the files that rows name, as paths among the photos."""
    return {
        name
        for model in models
        for field in _fields(model)
        if isinstance(field, FileField)
        for name in QuerySet(model).values_list(field.attname, flat=True)
        if name
    }


def first_with_rows(models: Iterable[type[Model]]) -> str:
    """Return the first table with rows somebody wrote, or nothing."""
    for model in models:
        told = name_of(model)
        if told not in MADE_WITH_TABLES and QuerySet(model).exists():
            return told
    return ""


def clear_made(models: Iterable[type[Model]]) -> None:
    """Strike out the rows that come with the tables."""
    told = {name_of(model): model for model in models}
    for name in MADE_WITH_TABLES:
        QuerySet(told[name]).delete()


def next_keys(models: Iterable[type[Model]]) -> None:
    """Let the next row of each table get a key that is free."""
    with connection.cursor() as cursor:
        for line in connection.ops.sequence_reset_sql(no_style(), list(models)):
            cursor.execute(line)


def one_moment() -> None:
    """Let the transaction just begun see the database as it is at one moment."""
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY")


def _fields(model: type[Model]) -> list[Field[Any, Any]]:
    """Return the columns of a table as Django knows them."""
    return list(model._meta.concrete_fields)  # noqa: SLF001 - Django's public door


def _last_of_each(names: Names) -> list[tuple[str, str]]:
    """Return the last migration of each app among these."""
    graph, had = (
        MigrationLoader(connection, ignore_no_migrations=True).graph,
        set(names),
    )
    return [
        node
        for node in names
        if node in graph.nodes
        and not any(
            child.key[0] == node[0] and child.key in had
            for child in graph.node_map[node].children
        )
    ]
