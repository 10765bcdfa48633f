#include "session/importing.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <set>

#include "narration/read.h"
#include "support/text.h"

namespace sash::session {
namespace {

namespace fs = std::filesystem;

std::string ending(const std::string& path) { return to_lower(fs::path(path).extension().string()); }
std::string stem(const std::string& path) { return fs::path(path).stem().string(); }

Moment end_of(const narration::NarrationText& text) {
  Moment end;
  for (const auto& line : text.lines) end = std::max(end, line.when.until);
  return end;
}

/// The first bytes of a file, at most `most`. Fails: not_found; wrong_use (a folder); unreadable.
Outcome<std::string> beginning_of(const std::string& path, std::size_t most) {
  std::error_code error;
  const auto status = fs::status(path, error);
  if (error || !fs::exists(status)) {
    return Fault::of(Code::not_found, "There is no file '" + path + "'; check the name and the folder.", path);
  }
  if (fs::is_directory(status)) {
    return Fault::of(Code::wrong_use, "'" + path + "' is a folder; name the file in it.", path);
  }
  std::ifstream in(path, std::ios::binary);
  if (!in) return Fault::of(Code::unreadable, "The file '" + path + "' cannot be read; check its permissions.", path);
  std::string bytes;
  std::array<char, 1U << 16U> block{};
  while (in && bytes.size() < most) {
    in.read(block.data(), static_cast<std::streamsize>(std::min(block.size(), most - bytes.size())));
    bytes.append(block.data(), static_cast<std::size_t>(in.gcount()));
  }
  return bytes;
}

}  // namespace

FileIs what_file_is(const std::string& path) {
  std::array<char, 16> head{};
  std::ifstream in(path, std::ios::binary);
  in.read(head.data(), head.size());
  const std::string_view start(head.data(), static_cast<std::size_t>(in.gcount()));
  if (start.starts_with("SQLite format 3") || ending(path) == ".sash") return FileIs::record;
  constexpr std::string_view mark = "\xEF\xBB\xBF";
  if (start.starts_with("WEBVTT") || (start.starts_with(mark) && start.substr(3).starts_with("WEBVTT")))
    return FileIs::narration;
  for (const std::string_view each : {".srt", ".vtt", ".txt", ".text", ".md"}) {
    if (ending(path) == each) return FileIs::narration;
  }
  return FileIs::footage;
}

Outcome<std::string> read_file(const std::string& path, std::size_t most) {
  auto bytes = beginning_of(path, most + 1);
  if (bytes && bytes->size() > most) {
    return Fault::of(Code::out_of_range,
                     "The file '" + path + "' is longer than " + std::to_string(most >> 20U) +
                         " MB, which is more than the JSON form of a record needs; check that it is the right file.",
                     path);
  }
  return bytes;
}

Outcome<narration::NarrationText> read_narration_file(const std::string& path) {
  const auto bytes = beginning_of(path, narration::most_bytes + 1);
  if (!bytes) return bytes.fault();
  std::error_code unknown;
  const auto size = fs::file_size(path, unknown);
  return narration::read_narration(*bytes, fs::path(path).filename().string(), {},
                                   unknown ? std::nullopt : std::optional<std::uint64_t>(size));
}

Planned add_footage(const model::Record& record, const NewNumber& ids, const std::string& path,
                    const media::FootageFacts& facts) {
  Draft draft(record, ids);
  model::Footage footage;
  for (const auto& each : record.footages) {
    if (each.path.empty()) footage = each;
    footage.order = std::max(footage.order, each.order + 1);
  }
  for (const auto& each : record.footages) {
    if (footage.id.known() && each.id == footage.id) footage.order = each.order;
  }
  footage.path = path;
  footage.fingerprint = facts.fingerprint;
  footage.title = stem(path);
  footage.duration = facts.duration.value_or(footage.duration);
  const auto id = draft.put(footage);
  return {draft.done("Add footage " + footage.title), id};
}

model::FootageId footage_for_narration(const model::Record& record, const std::string& path, model::FootageId current) {
  for (const auto& footage : record.footages) {
    if (!footage.path.empty() && stem(footage.path) == stem(path)) return footage.id;
  }
  if (model::find(record, current) != nullptr) return current;
  const auto all = model::in_order(record);
  return all.empty() ? model::FootageId{} : all.front()->id;
}

Planned add_narration(const model::Record& record, const NewNumber& ids, model::FootageId footage,
                      const std::string& path, const narration::NarrationText& text) {
  Draft draft(record, ids);
  if (!footage.known()) {
    model::Footage place;
    place.title = stem(path);
    place.duration = end_of(text);
    footage = draft.put(place);
  } else if (const model::Footage* there = model::find(record, footage); there != nullptr && there->path.empty()) {
    model::Footage place = *there;  // as long as what is said in it, until its clip comes
    place.duration = std::max(place.duration, end_of(text));
    draft.put(place);
  }
  std::set<std::pair<Moment, std::string>> there;
  for (const auto& line : record.lines) {
    if (line.footage == footage) there.insert({line.when.from, line.text});
  }
  for (model::NarrationLine line : text.lines) {
    if (!there.insert({line.when.from, line.text}).second) continue;
    line.id = {};
    line.footage = footage;
    draft.put(std::move(line));
  }
  return {draft.done("Add narration " + stem(path)), std::nullopt};
}

void move_lines(narration::NarrationText& text, Moment by) {
  for (model::NarrationLine& line : text.lines) {
    line.when = {line.when.from + by, line.when.until + by};
    for (model::Word& word : line.words) word.from = word.from + by;
  }
}

}  // namespace sash::session
