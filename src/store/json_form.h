#pragma once
// The JSON form of a record: for scripts, version control, other programs and as a way out of a damaged file. Carries
// the whole record without its history. Described by assets/record.schema.json. Pure; safe from any thread.
// Times are written as exact ticks (Moment::per_second to the second) with seconds beside them for people; a reader
// may give either, and must not give two that disagree.
// Source: RFC 8259 (JSON), RFC 6901 (the pointers that name places in faults).

#include <string>
#include <string_view>

#include "model/record.h"
#include "support/outcome.h"

namespace sash::store {

/// The record as indented JSON, UTF-8, with a final line feed. Equal records give equal bytes.
/// Requires: numbers finite and text UTF-8, as in every record that came from a Store or from from_json.
std::string to_json(const model::Record& record);

/// The record that `text` describes. Lists may be in any order; fields with a default may be left out.
/// Fails: Code::malformed with the JSON pointer of the first offender in Fault::offending and the sentences about the
/// further ones in Fault::others; for broken JSON the byte in Fault::place. Code::newer_version; Code::out_of_range
/// when the text is longer than 128 MiB.
Outcome<model::Record> from_json(std::string_view text);

}  // namespace sash::store
