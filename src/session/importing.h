#pragma once
// Importing: what a file brought to the desk is, and the edit that takes it into the record. Reads files; changes
// nothing. Safe from any thread.

#include <string>
#include <vector>

#include "media/facts.h"
#include "narration/text.h"
#include "session/editing.h"

namespace sash::session {

enum class FileIs { record, footage, narration };

/// By content where the first bytes decide (a record, captions), else by the ending; footage when nothing else fits.
FileIs what_file_is(const std::string& path);

/// The bytes of a file.
/// Fails: not_found; unreadable; out_of_range, when it is longer than `most` bytes.
Outcome<std::string> read_file(const std::string& path, std::size_t most);

/// A narration file, read; of one far too long the beginning, with a sentence that says so.
/// Fails: not_found; unreadable; as narration::read_narration.
Outcome<narration::NarrationText> read_narration_file(const std::string& path);

/// Takes footage in, after those the record has. Where narration came first and waits for its footage, this becomes it.
Planned add_footage(const model::Record& record, const NewNumber& ids, const std::string& path,
                    const media::FootageFacts& facts);

/// The footage a narration file belongs to: that with the same name, else `current`, else the first.
model::FootageId footage_for_narration(const model::Record& record, const std::string& path, model::FootageId current);

/// Takes the lines in at `footage`; when that is unknown a place is made for footage still to come. Lines already there
/// with the same time and words are not taken twice.
Planned add_narration(const model::Record& record, const NewNumber& ids, model::FootageId footage,
                      const std::string& path, const narration::NarrationText& text);

/// Every line of the text begins `by` later.
void move_lines(narration::NarrationText& text, Moment by);

}  // namespace sash::session
