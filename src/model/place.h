#pragma once
// Where a thing of the record is pinned: a footage, and a moment or a span of it. Pure values.

#include <cstdint>
#include <optional>
#include <string>

#include "support/id.h"
#include "support/moment.h"

namespace sash::model {

using FootageId = Id<struct FootageTag>;
using LineId = Id<struct LineTag>;
using PortionId = Id<struct PortionTag>;
using FigureId = Id<struct FigureTag>;
using HazardId = Id<struct HazardTag>;
using CalloutId = Id<struct CalloutTag>;
using NoteId = Id<struct NoteTag>;
using ChapterId = Id<struct ChapterTag>;
using RelationId = Id<struct RelationTag>;

/// A moment of a footage, or with `until` a span [from, until).
struct Place {
  FootageId footage;
  Moment from;
  std::optional<Moment> until;
  bool operator==(const Place&) const = default;
  Stretch stretch() const { return {from, until.value_or(from)}; }
};

/// Words of a narration line: bytes [begin, begin + length) of its text.
struct Words {
  LineId line;
  std::uint32_t begin = 0;
  std::uint32_t length = 0;
  bool operator==(const Words&) const = default;
};

/// Whether a person has looked at a thing the program proposed. Refused things stay, so that they do not come back.
enum class Standing { proposed, confirmed, refused };

/// How a thing came to be: by hand (`rule` empty) or by a named reading rule, with its confidence from 0 to 1.
struct Origin {
  Standing standing = Standing::confirmed;
  std::string rule;
  double confidence = 1.0;
  bool operator==(const Origin&) const = default;
};

}  // namespace sash::model
