#pragma once
// Words around nouns that name materials: what describes them, what ends an unknown name, and nouns that say only how
// something looks, that it came out, or what it lies in.

#include "narration/inner/word_set.h"

namespace sash::narration {

inline constexpr WordSet describing{
    "concentrated", "dilute",   "diluted",   "distilled", "deionized", "deionised", "hot",      "cold",       "warm",
    "ice",          "iced",     "boiling",   "pure",      "dry",       "dried",     "fresh",    "the",        "this",
    "that",         "my",       "our",       "some",      "more",      "a",         "an",       "glacial",    "wet",
    "crude",        "solid",    "liquid",    "aqueous",   "anhydrous", "powdered",  "fine",     "white",      "blue",
    "black",        "green",    "red",       "yellow",    "orange",    "pink",      "brown",    "purple",     "clear",
    "plain",        "good",     "strong",    "weak",      "saturated", "household", "food",     "grade",      "lab",
    "cheap",        "same",     "soluble",   "ordinary",  "normal",    "purified",  "tap",      "nice",       "those",
    "these",        "your",     "its",       "actual",    "clean",     "chilled",   "lukewarm", "granulated", "crushed",
    "ground",       "about",    "roughly",   "around",    "old",       "new",       "stock",    "standard",   "very",
    "really",       "little",   "technical", "recovered", "metallic",  "regular",   "free",     "any",        "-",
    "strength",     "absolute", "denatured", "iodized",   "iodised",   "excess",    "shiny",    "clear",      "spent",
    "melted",       "molten"};

/// Words that end a name nobody knows: verbs, prepositions, punctuation.
inline constexpr WordSet name_ends{
    "in",    "into",  "to",    "and",     "with",    "from",    "at",     "on",    "for",        "so",      "which",
    "that",  "is",    "was",   "are",     "were",    "goes",    "go",     "then",  "here",       "or",      "but",
    "by",    "over",  "as",    "if",      "when",    "now",     "it",     "we",    "i",          "you",     "gives",
    "per",   "each",  "made",  "because", "left",    "back",    "out",    "off",   "up",         "down",    "before",
    "after", "until", "while", "should",  "would",   "will",    "can",    "has",   "have",       "had",     "like",
    "just",  "there", "they",  "not",     "no",      "went",    "going",  "again", "altogether", "total",   "look",
    "what",  "this",  "than",  "being",   "without", "through", "around", "onto",  "also",       "already", "about",
    "per",   "we're", "i'm",   "it's",    "that's",  "he",      "she",    "last",  "where",      "slowly",  "please",
    "maybe", "all",   "okay",  "ok",      "um",      "uh"};
inline constexpr WordSet determiners{"the", "this", "that", "my", "our", "those", "these", "your", "its", "any"};
inline constexpr WordSet pronouns{"it", "that", "this", "these", "those", "them", "which", "stuff", "mine", "one"};

/// Words for whatever is in the pot, and words too vague to be what a procedure makes.
inline constexpr WordSet pot_words{"sludge", "mixture", "soup", "slurry", "mix",        "batch",
                                   "mess",   "goo",     "gunk", "broth",  "suspension", "goop"};
/// Nouns for what came out, and for what it may look like.
inline constexpr WordSet outcomes{"crude", "product", "yield", "fuel", "precipitate", "needles", "prisms", "leaflets"};
inline constexpr WordSet looks{"crystals", "plates",   "flakes", "platelets", "shards", "cake",    "material",
                               "powder",   "solid",    "solids", "crystal",   "fluff",  "chunks",  "blocks",
                               "cubes",    "granules", "bits",   "lumps",     "grains", "pellets", "shavings"};

inline constexpr WordSet vessels{"paper's", "dish's", "boat's", "beaker's", "flask's",  "crucible's", "dish",
                                 "boat",    "beaker", "flask",  "paper",    "crucible", "vial",       "tube",
                                 "bottle",  "bowl",   "pan",    "jar",      "tin",      "cup",        "tray",
                                 "papers",  "vessel", "basin",  "cylinder", "bag"};

}  // namespace sash::narration
