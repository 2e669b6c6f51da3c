"""How hard a text is to read: the grade of Flesch and Kincaid, and words a patient need not know.

grade = 0.39 words per sentence + 11.8 syllables per word - 15.59 (Kincaid et al. 1975, from
memory); a reader of 12 is in the sixth or seventh grade. Syllables are counted as runs of vowels
less a silent e, which is about right for English.
"""

import re

TRADE_WORDS = re.compile(
    r"\b(occlusal|occlusion|excursions?|lateral(?! incisor)|protrusion|protrusive|retrusion"
    r"|centric|intercuspation|MI|CR|interference|nonworking|working|condyl\w*|articulat\w*"
    r"|guidance|guides?|disclusion|fossa|cusps?|mesial|distal|buccal|lingual|abutment|closing arc"
    r"|runner-up|scheme|mediotru\w+|laterotru\w+|deflect\w*)\b"
)


def _syllables(word):
    runs = len(re.findall(r"[aeiouy]+", word.lower()))
    silent = word.lower().endswith("e") and not word.lower().endswith("le") and runs > 1
    return max(runs - silent, 1)


def grade(text):
    """Return the school grade of a text; names of teeth with their numbers count as words."""
    sentences = [part for part in re.split(r"[.!?:](?:\s|$)", text) if re.search(r"[a-z]", part)]
    words = re.findall(r"[A-Za-z']+", text)
    syllables = sum(_syllables(word) for word in words)
    return 0.39 * len(words) / len(sentences) + 11.8 * syllables / len(words) - 15.59
