"""Errors of a book, each with its code and sentence."""

from __future__ import annotations

from models.errors import CrewError


class BookError(CrewError):
    """Root of everything that can go wrong with a book."""


class NoSuchBookError(BookError, FileNotFoundError):
    """There is no book file under that name."""

    code = "book.missing"
    sentence = (
        "Cannot open book {path}: there is no such file. "
        "Check the name, or make a new book for the job."
    )


class BookExistsError(BookError, FileExistsError):
    """A new book would take the place of a file."""

    code = "book.exists"
    sentence = (
        "Cannot make book {path}: a file of that name is there already and has not been "
        "changed. Open it, or choose another name."
    )


class BookForbiddenError(BookError, PermissionError):
    """The operating system does not let us at the file."""

    code = "book.forbidden"
    sentence = (
        "Cannot open book {path}: this user has no permission to {act} it. "
        "The file has not been changed. Ask its owner for access."
    )


class NotABookError(BookError, ValueError):
    """The path leads to something else than a book."""

    code = "book.not_a_book"
    sentence = (
        "Cannot open {path} as a book: it is {found}. It has not been changed. "
        "A file made by this app for a job would be opened."
    )


class BookTooNewError(BookError):
    """A later version of the app wrote the file."""

    code = "book.too_new"
    sentence = (
        "Cannot open book {path}: it has schema {found}, and this version of the app knows "
        "schemas up to {newest}. The file has not been changed. Install the newer version."
    )


class BookDamagedError(BookError):
    """The file is a book, or was one, and is broken."""

    code = "book.damaged"
    sentence = (
        "Book {path} is damaged: {what}. {readable:entry|entries} can still be read. The file has "
        "not been written to. Make a salvage copy: a new book with every entry that still holds."
    )


class StorageError(BookError):
    """The operating system or SQLite failed, for a reason of its own."""

    code = "book.storage"
    sentence = (
        "Cannot go on with book {path}: the storage answered {why}. Nothing was written. "
        "Check that the folder is there, has room, and that no other program holds the file."
    )


class SettingsRefusedError(BookError):
    """The file system or library does not give the durability a book needs."""

    code = "book.settings"
    sentence = (
        "Cannot open book {path}: {setting} should be {wanted} and is {found}, so a power cut "
        "could lose entries. Keep the book on the tablet's own storage."
    )


class BookReadOnlyError(BookError):
    """An entry was to be written into a book opened to be read."""

    code = "book.read_only"
    sentence = "Nothing was written to book {path}: {reason}"


class EntryClashError(BookError, ValueError):
    """An id stands for two different entries."""

    code = "book.clash"
    sentence = (
        "Nothing was written: entry {id} is already in the book and says something else. "
        "An entry is never changed; write a new one that strikes it."
    )


class UnknownStrikeError(BookError, ValueError):
    """An entry strikes one that is not in the book."""

    code = "book.unknown_strike"
    sentence = (
        "Nothing was written: entry {id} strikes {struck}, which is not in this book. "
        "The id of an entry in the same book would be accepted."
    )


class NoStrikeReasonError(BookError, ValueError):
    """An entry strikes another and does not say why."""

    code = "book.no_strike_reason"
    sentence = (
        "Nothing was written: entry {id} strikes another entry and gives no reason. "
        "A few words that say why would be accepted."
    )


class NotStorableError(BookError, ValueError):
    """A body holds a number with a fraction, or something that JSON has no form for."""

    code = "book.not_whole"
    sentence = (
        "Nothing was written: {place} of this {kind} is {found}. Whole numbers in a small "
        "enough unit, texts, yes or no, lists and groups of these would be accepted."
    )


class NotCommittedError(BookError):
    """The entries are certainly not in the book."""

    code = "book.not_inked"
    sentence = (
        "Not written: {ids}, because of {why}. What was typed is still here. "
        "{remedy}, then try again."
    )


class CommitUncertainError(BookError):
    """A commit failed, so the entries may or may not be in the book."""

    code = "book.ink_unknown"
    sentence = (
        "Cannot tell whether {ids} is written: the storage answered {why}. It may or may not "
        "be in the book. Try again: the same entry is never written twice."
    )


class CopyFailedError(BookError):
    """A backup or salvage copy could not be made, or did not hold when checked."""

    code = "book.copy_failed"
    sentence = (
        "Cannot copy book {path} to {target}: {why}. The book itself has not been changed. "
        "Choose a new name in a folder with enough room."
    )


class BookNotCreatedError(BookError):
    """A new book could not be laid down."""

    code = "book.not_made"
    sentence = (
        "Cannot make a book at {path}: {why}. Nothing was written. A new name, in a folder "
        "that is there, may be written to and has room, would be accepted."
    )


class AnchorError(BookError):
    """The file that ties this install to its stream cannot be used."""

    code = "book.anchor"
    sentence = (
        "Cannot use the identity file {path}: {why}. No stream was started. "
        "Give the app a folder of its own that it may write to."
    )
