"""Morse idents: sent with the timing of ITU-R M.1677, read back, and what they say of a station."""

from vorlib.morse.reading import (
    find_key_downs,
    read_key_downs,
    read_samples,
    slip,
    use_of_ident,
)
from vorlib.morse.sending import (
    CODE,
    IDENT_TONE_HZ,
    MAINTENANCE,
    SOUND_RATE_HZ,
    WORDS_PER_MINUTE,
    KeyDown,
    decode,
    dot_seconds,
    encode,
    key_downs_dots,
    key_downs_seconds,
    keying,
    length_dots,
    sound,
)

__all__ = [
    "CODE",
    "IDENT_TONE_HZ",
    "MAINTENANCE",
    "SOUND_RATE_HZ",
    "WORDS_PER_MINUTE",
    "KeyDown",
    "decode",
    "dot_seconds",
    "encode",
    "find_key_downs",
    "key_downs_dots",
    "key_downs_seconds",
    "keying",
    "length_dots",
    "read_key_downs",
    "read_samples",
    "slip",
    "sound",
    "use_of_ident",
]
