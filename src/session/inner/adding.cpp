// Files as they come into a record, and footage in particular.
#include <algorithm>
#include <filesystem>

#include "media/probe.h"
#include "session/importing.h"
#include "session/inner/holdings.h"
#include "session/record_paths.h"

namespace sash::session::inner {
namespace {

namespace fs = std::filesystem;

}  // namespace

Done Holdings::add_files(const std::vector<std::string>& paths) {
  if (paths.empty()) return {};
  if (what_file_is(paths.front()) == FileIs::record) return open(paths.front());
  if (!store) {
    const fs::path first(paths.front());
    const fs::path beside = first.parent_path() / (first.stem().string() + ".sash");
    if (const Done done = begin_beside(beside.string()); !done) return done;
  }
  // Footage first, so that captions dropped together with it find it.
  std::vector<std::string> ordered = paths;
  std::stable_partition(ordered.begin(), ordered.end(),
                        [](const std::string& p) { return what_file_is(p) == FileIs::footage; });
  std::optional<Fault> first_fault;
  for (const auto& path : ordered) {
    const Done done = what_file_is(path) == FileIs::footage ? add_footage_file(path) : add_narration_file(path);
    if (done) continue;
    if (first_fault) say(done.fault().sentence, News::fault);
    first_fault = first_fault ? first_fault : std::optional(done.fault());
  }
  if (first_fault) return *first_fault;
  return {};
}

Done Holdings::add_footage_file(const std::string& path) {
  const auto facts = media::probe(path);
  if (!facts) return facts.fault();
  if (const auto lost = missing_clip(facts->fingerprint)) return find_again({*lost, path});
  const Planned planned = add_footage(record(), ids(), path_for_record(store->path(), path), *facts);
  if (const Done done = carry_out(planned); !done) return done;
  if (facts->has_location)
    say("'" + path + "' carries the place where it was filmed; nothing exported will carry it.", News::result);
  const auto id = std::get<model::FootageId>(*planned.about);
  if (setup.background) {
    begin_work(*model::find(record(), id));
    const bool nothing_shown = !playing.footage().known() && !waiting_;
    if (nothing_shown || playing.footage() == id) turn_to(id, Moment());
  }
  return {};
}

// The footage with this content whose file is not where it was.
std::optional<model::FootageId> Holdings::missing_clip(const std::string& fingerprint) const {
  if (fingerprint.empty()) return std::nullopt;
  for (const auto& [id, state] : work.states()) {
    const auto* footage = state.missing ? model::find(record(), id) : nullptr;
    if (footage != nullptr && footage->fingerprint == fingerprint) return id;
  }
  return std::nullopt;
}

Done Holdings::find_again(const FindFootageAgain& what) {
  const model::Footage* footage = model::find(record(), what.footage);
  if (footage == nullptr) return Fault::of(Code::not_found, "That footage is no longer in the record.");
  const auto facts = media::probe(what.path);
  if (!facts) return facts.fault();
  if (!footage->fingerprint.empty() && facts->fingerprint != footage->fingerprint) {
    return Fault::of(Code::wrong_use,
                     "'" + what.path + "' is another clip than '" + footage->path +
                         "': its content differs; choose the same clip, or add this one as new footage.",
                     what.path);
  }
  model::Footage moved = *footage;
  moved.path = path_for_record(store->path(), what.path);
  moved.fingerprint = facts->fingerprint;
  if (const Done done = carry_out(put_thing(record(), ids(), moved, "Find footage again")); !done) return done;
  begin_work(moved);
  if (playing.footage() == moved.id) playing.close();
  turn_to(moved.id, Moment());
  say("Found the footage again: " + moved.path + ".");
  return {};
}

}  // namespace sash::session::inner
