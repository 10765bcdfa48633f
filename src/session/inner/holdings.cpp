#include "session/inner/holdings.h"

#include <algorithm>
#include <filesystem>

#include "media/probe.h"
#include "session/handing_over.h"
#include "session/importing.h"
#include "session/record_paths.h"

namespace sash::session::inner {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_notices = 200;

bool there(const model::Record& record, const ThingRef& thing) {
  return std::visit([&](auto id) { return model::find(record, id) != nullptr; }, thing);
}

}  // namespace

Fault no_record() {
  return Fault::of(Code::wrong_use,
                   "No record is open; open one, or drop footage or captions on the window to begin one.");
}

Holdings::Holdings(Setup s)
    : setup(std::move(s)),
      recent(setup.state_folder),
      checking(setup.wake),
      work(setup.cache_folder.empty() ? std::string() : setup.cache_folder + "/content.db", setup.wake),
      playing(setup.wake, setup.sound),
      script_job("Writing the script", setup.wake),
      demo_job("Drawing the demo's footage", setup.wake),
      reading_job("Reading the narration", setup.wake) {
  std::error_code error;
  if (!setup.cache_folder.empty()) fs::create_directories(setup.cache_folder, error);
}

NewNumber Holdings::ids() {
  return [this](const model::Thing& shape) {
    return std::visit([this]<class T>(const T&) { return store->next_id<T>().number; }, shape);
  };
}

void Holdings::say(std::string sentence, News news) {
  notices.push_back({std::move(sentence), news == News::fault, ++notices_given, news == News::result});
  if (notices.size() > most_notices) notices.erase(notices.begin());
  changed = true;
}

void Holdings::edited() {
  ++revision;
  changed = true;
  checking.refresh(record(), revision);
}

Done Holdings::carry_out(const Planned& planned) {
  if (!store) return no_record();
  const bool makes = planned.about && !there(record(), *planned.about);
  if (const Done done = store->commit(planned.edit); !done) return done;
  if (makes) just_made = planned.about;
  edited();
  return {};
}

Done Holdings::carry_out(const Outcome<Planned>& planned) {
  if (!planned) return planned.fault();
  return carry_out(*planned);
}

// --- the record

void Holdings::close() {
  stop_reading();
  playing.close();
  work.forget_all();
  store.reset();
  just_made.reset();
  missing_no_more(std::nullopt);
  edited();
}

Done Holdings::take(store::Store opened) {
  close();
  store = std::move(opened);
  if (const Fault* why = store->read_only()) say(why->sentence, News::fault);
  recent.opened(store->path());
  edited();
  if (setup.background) {
    for (const auto& footage : record().footages) begin_work(footage);
    if (const auto all = model::in_order(record()); !all.empty()) turn_to(all.front()->id, Moment());
  }
  return {};
}

Done Holdings::open(const std::string& path) {
  auto opened = store::Store::open(path);
  if (!opened) return opened.fault();
  return take(std::move(*opened));
}

Done Holdings::begin(const BeginRecord& what) {
  // Looked at first, so that a file which cannot be read leaves no half-made record behind.
  for (const auto& path : what.footage) {
    if (const auto facts = media::probe(path); !facts) return facts.fault();
  }
  for (const auto& path : what.narration) {
    if (const auto text = read_narration_file(path); !text) return text.fault();
  }
  auto created = store::Store::create(what.path);
  if (!created) return created.fault();
  if (const Done done = take(std::move(*created)); !done) return done;
  for (const auto& path : what.footage) {
    if (const Done done = add_footage_file(path); !done) return done;
  }
  for (const auto& path : what.narration) {
    if (const Done done = add_narration_file(path); !done) return done;
  }
  return {};
}

Done Holdings::begin_beside(const std::string& path) {
  auto created = store::Store::create(free_name(path));
  if (!created) return created.fault();
  const std::string made = created->path();
  if (const Done done = take(std::move(*created)); !done) return done;
  say("Began the record " + made + ".");
  return {};
}

Done Holdings::begin_demo() {
  if (!setup.make_demo || setup.demo_folder.empty()) {
    return Fault::of(Code::unsupported, "The demo record cannot be made from here; 'sashline demo FOLDER' makes it.");
  }
  if (demo_job.under_way()) return {};
  demo_job.begin(
      [make = setup.make_demo, folder = setup.demo_folder](Progress& progress) { return make(folder, progress); });
  say("Drawing the demo's footage; it opens by itself in about a minute.");
  return {};
}

void Holdings::take_demo() {
  const auto made = demo_job.poll();
  if (!made) return;
  const Done done = *made ? open(made->value()) : Done(made->fault());
  if (!done) say(done.fault().sentence, News::fault);
}

void Holdings::export_script(const std::string& folder) {
  script_job.begin([snapshot = record(), path = store->path(), folder](Progress& progress) {
    return write_script(snapshot, path, folder, progress);
  });
}

void Holdings::take_script() {
  const auto written = script_job.poll();
  if (!written) return;
  if (*written) {
    say("The script is in " + written->value() + ".", News::result);
  } else {
    say(written->fault().sentence, News::fault);
  }
}

Done Holdings::stop_work(const std::string& what) {
  const bool reading = reading_job.under_way() && what == reading_job.what();
  const bool writing = script_job.under_way() && what == script_job.what();
  const bool drawing = demo_job.under_way() && what == demo_job.what();
  if (reading) stop_reading();
  if (writing) script_job.stop();
  if (drawing) demo_job.stop();
  if (reading || writing || drawing) say("Stopped: " + what + ".", News::result);
  return {};
}

// --- media

void Holdings::begin_work(const model::Footage& footage) {
  if (!footage.path.empty()) work.begin(footage.id, path_on_disk(store->path(), footage.path));
}

void Holdings::turn_to(model::FootageId id, Moment at) {
  const model::Footage* footage = model::find(record(), id);
  if (footage == nullptr) return;
  const auto state = work.states().find(id);
  const bool looked_at = state != work.states().end();
  const bool known = looked_at && state->second.facts;
  const bool unplayable = looked_at && (state->second.missing || state->second.fault);
  if (!known && !unplayable && !footage->path.empty()) {
    waiting_ = {id, at};
    return;
  }
  // What cannot be played still has a playhead, and pins.
  playing.turn_to(id, known ? path_on_disk(store->path(), footage->path) : std::string(),
                  known ? *state->second.facts : media::FootageFacts{}, at);
  if (known && state->second.index) playing.use_index(id, state->second.index);
  waiting_.reset();
  changed = true;
}

void Holdings::turn_to_next() {
  const auto all = model::in_order(record());
  const auto here = std::find_if(all.begin(), all.end(), [&](const auto* f) { return f->id == playing.footage(); });
  if (here == all.end() || here + 1 == all.end() || playing.loop()) return;
  const double speed = playing.speed();
  turn_to((*(here + 1))->id, Moment());
  if (speed > 0) playing.toggle();
}

Done Holdings::seek(const Seek& to) {
  if (!store || model::find(record(), to.footage) == nullptr) return no_record();
  if (to.footage != playing.footage()) {
    turn_to(to.footage, to.to);
  } else {
    playing.seek(to.to, to.settled);
  }
  changed = true;
  return {};
}

void Holdings::footage_news(model::FootageId id) {
  const FootageState& state = work.states().at(id);
  const bool looked_at = state.facts || state.fault || state.missing;
  if (waiting_ && waiting_->first == id && looked_at) turn_to(id, waiting_->second);
  if (state.index) playing.use_index(id, state.index);
  if (state.fault && !state.missing) say(state.fault->sentence, News::fault);
  if (!state.missing) return missing_no_more(id);
  const auto* footage = model::find(record(), id);
  say("The footage '" + (footage != nullptr ? footage->path : std::string()) +
          "' is not where it was; everything else of the record is here, and you can say where the file is now.",
      News::fault);
  notices.back().missing = id;
}

void Holdings::missing_no_more(std::optional<model::FootageId> footage) {
  std::erase_if(notices, [&](const Notice& n) { return n.missing && (!footage || n.missing == footage); });
}

}  // namespace sash::session::inner
