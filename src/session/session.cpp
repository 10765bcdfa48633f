#include "session/session.h"

#include <algorithm>
#include <filesystem>

#include "media/probe.h"
#include "narration/read.h"
#include "session/checking.h"
#include "session/demo_making.h"
#include "session/editing.h"
#include "session/footage_work.h"
#include "session/handing_over.h"
#include "session/importing.h"
#include "session/playing.h"
#include "session/proposing.h"
#include "session/recent.h"
#include "session/record_paths.h"
#include "store/store.h"

namespace sash::session {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_notices = 200;

Fault no_record() {
  return Fault::of(Code::wrong_use,
                   "No record is open; open one, or drop footage or captions on the window to begin one.");
}

bool there(const model::Record& record, const ThingRef& thing) {
  return std::visit([&](auto id) { return model::find(record, id) != nullptr; }, thing);
}

}  // namespace

struct Session::Inner {
  explicit Inner(Setup s)
      : setup(std::move(s)),
        recent(setup.state_folder),
        checking(setup.wake),
        work(setup.cache_folder.empty() ? std::string() : setup.cache_folder + "/content.db", setup.wake),
        playing(setup.wake, setup.sound),
        handing_over(setup.wake),
        demo(setup.wake) {
    std::error_code error;
    if (!setup.cache_folder.empty()) fs::create_directories(setup.cache_folder, error);
  }

  ~Inner() = default;
  Inner(const Inner&) = delete;
  Inner& operator=(const Inner&) = delete;

  Setup setup;
  Recent recent;
  std::optional<store::Store> store;
  model::Record empty;
  Checking checking;
  FootageWork work;
  Playing playing;
  HandingOver handing_over;
  DemoMaking demo;
  std::uint64_t revision = 0;
  std::vector<Notice> notices;
  std::uint64_t notices_given = 0;
  std::optional<ThingRef> just_made;
  bool changed = true;

  const model::Record& record() const { return store ? store->record() : empty; }

  NewNumber ids() {
    return [this](const model::Thing& shape) {
      return std::visit([this]<class T>(const T&) { return store->next_id<T>().number; }, shape);
    };
  }

  void say(std::string sentence, bool fault = false) {
    notices.push_back({std::move(sentence), fault, ++notices_given});
    if (notices.size() > most_notices) notices.erase(notices.begin());
    changed = true;
  }

  void edited() {
    ++revision;
    changed = true;
    checking.refresh(record(), revision);
  }

  Done carry_out(const Planned& planned) {
    if (!store) return no_record();
    const bool makes = planned.about && !there(record(), *planned.about);
    if (const Done done = store->commit(planned.edit); !done) return done;
    if (makes) just_made = planned.about;
    edited();
    return {};
  }

  Done carry_out(const Outcome<Planned>& planned) {
    if (!planned) return planned.fault();
    return carry_out(*planned);
  }

  // --- the record

  void close() {
    playing.close();
    work.forget_all();
    store.reset();
    just_made.reset();
    edited();
  }

  Done take(store::Store opened) {
    close();
    store = std::move(opened);
    if (const Fault* why = store->read_only()) say(why->sentence, true);
    recent.opened(store->path());
    edited();
    if (setup.background) {
      for (const auto& footage : record().footages) begin_work(footage);
      if (const auto all = model::in_order(record()); !all.empty()) turn_to(all.front()->id, Moment());
    }
    return {};
  }

  Done open(const std::string& path) {
    auto opened = store::Store::open(path);
    if (!opened) return opened.fault();
    return take(std::move(*opened));
  }

  Done begin(const BeginRecord& what) {
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

  // Drawing the demo's footage takes a minute, so it is a job; poll() opens the record when it is there.
  Done begin_demo() {
    if (!setup.make_demo || setup.demo_folder.empty()) {
      return Fault::of(Code::unsupported, "The demo record cannot be made from here; 'sashline demo FOLDER' makes it.");
    }
    if (demo.under_way()) return {};
    demo.begin(setup.make_demo, setup.demo_folder);
    say("Drawing the demo's footage; it opens by itself in about a minute.");
    return {};
  }

  void take_demo() {
    const auto made = demo.poll();
    if (!made) return;
    const Done done = *made ? open(made->value()) : Done(made->fault());
    if (!done) say(done.fault().sentence, true);
  }

  Done add_files(const std::vector<std::string>& paths) {
    if (paths.empty()) return {};
    if (what_file_is(paths.front()) == FileIs::record) return open(paths.front());
    if (!store) {
      const fs::path first(paths.front());
      auto created = store::Store::create(free_name(first.parent_path() / (first.stem().string() + ".sash")));
      if (!created) return created.fault();
      const std::string path = created->path();
      if (const Done done = take(std::move(*created)); !done) return done;
      say("Began the record " + path + ".");
    }
    // Footage first, so that captions dropped together with it find it.
    std::vector<std::string> ordered = paths;
    std::stable_partition(ordered.begin(), ordered.end(),
                          [](const std::string& p) { return what_file_is(p) == FileIs::footage; });
    std::optional<Fault> first_fault;
    for (const auto& path : ordered) {
      const Done done = what_file_is(path) == FileIs::footage ? add_footage_file(path) : add_narration_file(path);
      if (done) continue;
      if (first_fault) say(done.fault().sentence, true);
      first_fault = first_fault ? first_fault : std::optional(done.fault());
    }
    if (first_fault) return *first_fault;
    return {};
  }

  Done add_footage_file(const std::string& path) {
    const auto facts = media::probe(path);
    if (!facts) return facts.fault();
    if (const auto lost = missing_clip(facts->fingerprint)) return find_again({*lost, path});
    const Planned planned = add_footage(record(), ids(), path_for_record(store->path(), path), *facts);
    if (const Done done = carry_out(planned); !done) return done;
    if (facts->has_location)
      say("'" + path + "' carries the place where it was filmed; nothing exported will carry it.");
    const auto id = std::get<model::FootageId>(*planned.about);
    if (setup.background) {
      begin_work(*model::find(record(), id));
      const bool nothing_shown = !playing.footage().known() && !waiting;
      if (nothing_shown || playing.footage() == id) turn_to(id, Moment());
    }
    return {};
  }

  Done add_narration_file(const std::string& path) {
    const auto text = read_narration_file(path);
    if (!text) return text.fault();
    return take_narration(path, *text);
  }

  Done take_narration(const std::string& path, const narration::NarrationText& text) {
    for (const auto& warning : text.warnings) say(warning);
    const auto footage = footage_for_narration(record(), path, playing.footage());
    if (const Done done = carry_out(add_narration(record(), ids(), footage, path, text)); !done) return done;
    if (!playing.footage().known() && !waiting) turn_to(model::in_order(record()).front()->id, Moment());
    return carry_out(propose_from_narration(record(), ids()));
  }

  // Text without times begins at the playhead: that is where the person will slide it from.
  Done add_text(const std::string& pasted) {
    auto text = narration::read_narration(pasted, "The text");
    if (!text) return text.fault();
    if (!store) {
      if (setup.own_folder.empty()) return no_record();
      auto created = store::Store::create(free_name(fs::path(setup.own_folder) / "narration.sash"));
      if (!created) return created.fault();
      const std::string path = created->path();
      if (const Done done = take(std::move(*created)); !done) return done;
      say("Began the record " + path + ".");
    }
    const bool untimed = text->form == narration::Form::plain_text;
    if (untimed) move_lines(*text, playing.at());
    if (const Done done = take_narration("text", *text); !done) return done;
    if (untimed && text->lines.size() > 1) {
      say("The text has no times, so its lines are spread by their length. Play, and press T as each is to be heard; "
          "or drag a line by its left edge.");
    }
    return {};
  }

  /// The footage with this content whose file is not where it was.
  std::optional<model::FootageId> missing_clip(const std::string& fingerprint) const {
    if (fingerprint.empty()) return std::nullopt;
    for (const auto& [id, state] : work.states()) {
      const auto* footage = state.missing ? model::find(record(), id) : nullptr;
      if (footage != nullptr && footage->fingerprint == fingerprint) return id;
    }
    return std::nullopt;
  }

  Done find_again(const FindFootageAgain& what) {
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

  bool rewords(const model::Thing& thing) const {
    const auto* line = std::get_if<model::NarrationLine>(&thing);
    const auto* stored = line != nullptr ? model::find(record(), line->id) : nullptr;
    return line != nullptr && (stored == nullptr || stored->text != line->text);
  }

  // --- media

  void begin_work(const model::Footage& footage) {
    if (!footage.path.empty()) work.begin(footage.id, path_on_disk(store->path(), footage.path));
  }

  void turn_to(model::FootageId id, Moment at) {
    const model::Footage* footage = model::find(record(), id);
    if (footage == nullptr) return;
    const auto state = work.states().find(id);
    const bool looked_at = state != work.states().end();
    const bool known = looked_at && state->second.facts;
    const bool unplayable = looked_at && (state->second.missing || state->second.fault);
    if (!known && !unplayable && !footage->path.empty()) {
      waiting = {id, at};  // as soon as the file has been looked at
      return;
    }
    // What cannot be played still has a playhead, and pins.
    playing.turn_to(id, known ? path_on_disk(store->path(), footage->path) : std::string(),
                    known ? *state->second.facts : media::FootageFacts{}, at);
    if (known && state->second.index) playing.use_index(id, state->second.index);
    waiting.reset();
    changed = true;
  }

  Done seek(const Seek& to) {
    if (!store || model::find(record(), to.footage) == nullptr) return no_record();
    if (to.footage != playing.footage()) {
      turn_to(to.footage, to.to);
    } else {
      playing.seek(to.to, to.settled);
    }
    changed = true;
    return {};
  }

  model::Place here() const { return {playing.footage(), playing.at(), std::nullopt}; }

  std::optional<std::pair<model::FootageId, Moment>> waiting;

  void footage_news(model::FootageId id) {
    const FootageState& state = work.states().at(id);
    const bool looked_at = state.facts || state.fault || state.missing;
    if (waiting && waiting->first == id && looked_at) turn_to(id, waiting->second);
    if (state.index) playing.use_index(id, state.index);
    if (state.fault && !state.missing) say(state.fault->sentence, true);
    if (state.missing) {
      const auto* footage = model::find(record(), id);
      say("The footage '" + (footage != nullptr ? footage->path : std::string()) +
              "' is not where it was; everything else of the record is here, and you can say where the file is now.",
          true);
    }
  }
};

Session::Session(Setup setup) : inner_(std::make_unique<Inner>(std::move(setup))) {}
Session::~Session() = default;

namespace {

// One function for each intent, found by overload; `in` is the session's inner state.
template <class Inner>
struct CarryOut {
  Inner& in;

  Done operator()(const OpenRecord& i) { return in.open(i.path); }
  Done operator()(const BeginRecord& i) { return in.begin(i); }
  Done operator()(const OpenDemo&) { return in.begin_demo(); }
  Done operator()(const CloseRecord&) { return in.close(), Done(); }
  Done operator()(const AddFiles& i) { return in.add_files(i.paths); }
  Done operator()(const AddText& i) { return in.add_text(i.text); }
  Done operator()(const FindFootageAgain& i) { return in.find_again(i); }
  Done operator()(const SaveCopy& i) { return in.store ? in.store->save_copy(i.path) : Done(no_record()); }

  Done operator()(const TogglePlay&) { return in.playing.toggle(), Done(); }
  Done operator()(const Shuttle& i) { return in.playing.shuttle(i.direction), Done(); }
  Done operator()(const SetSpeed& i) { return in.playing.set_speed(i.speed), Done(); }
  Done operator()(const StepFrames& i) { return in.playing.step(i.frames), Done(); }
  Done operator()(const Seek& i) { return in.seek(i); }
  Done operator()(const LoopOver& i) { return in.playing.set_loop(i.span), Done(); }
  Done operator()(const SetVolume& i) { return in.playing.set_volume(i.volume), Done(); }

  Done operator()(const PinHere& i) {
    if (!in.store) return no_record();
    if (!in.playing.footage().known()) {
      return Fault::of(Code::wrong_use, "There is no footage to pin anything to; add footage or captions first.");
    }
    return in.carry_out(pin(in.record(), in.ids(), i.kind, in.here()));
  }
  Done operator()(const EndSpanHere& i) { return in.carry_out(end_span(in.record(), i.thing, in.playing.at())); }
  Done operator()(const TypeFigure& i) { return in.carry_out(type_figure(in.record(), in.ids(), i.figure, i.text)); }
  Done operator()(const PinWords& i) { return in.carry_out(pin_words(in.record(), in.ids(), i.words)); }
  Done operator()(const PutThing& i) {
    if (!in.store) return no_record();
    const bool reworded = in.rewords(i.thing);
    const Done done = in.carry_out(put_thing(in.record(), in.ids(), i.thing, i.name));
    if (!done || !reworded) return done;
    return in.carry_out(propose_from_narration(in.record(), in.ids()));  // what is said now
  }
  Done operator()(const PutBench& i) { return in.carry_out(put_bench(in.record(), i.bench)); }
  Done operator()(const MovePin& i) { return in.carry_out(move_pin(in.record(), i.thing, i.from)); }
  Done operator()(const RemoveThings& i) { return in.carry_out(remove_things(in.record(), i.things)); }
  Done operator()(const Accept& i) { return in.carry_out(settle(in.record(), i.things, model::Standing::confirmed)); }
  Done operator()(const Refuse& i) { return in.carry_out(settle(in.record(), i.things, model::Standing::refused)); }
  Done operator()(const Undo&) { return step_back(true); }
  Done operator()(const Redo&) { return step_back(false); }

  Done operator()(const ReadNarration&) {
    return in.store ? in.carry_out(propose_from_narration(in.record(), in.ids())) : Done(no_record());
  }
  Done operator()(const ExportScript& i) {
    if (!in.store) return no_record();
    in.handing_over.begin(in.record(), in.store->path(), i.folder);
    return {};
  }

 private:
  Done step_back(bool undo) {
    if (!in.store) return no_record();
    const auto name = undo ? in.store->undo() : in.store->redo();
    if (!name) return name.fault();
    in.just_made.reset();
    in.edited();
    in.say((undo ? "Took back: " : "Did again: ") + *name + ".");
    return {};
  }
};

}  // namespace

Done Session::apply(const Intent& intent) {
  inner_->changed = true;
  Done done = std::visit(CarryOut<Inner>{*inner_}, intent);
  if (!done) inner_->say(done.fault().sentence, true);
  return done;
}

bool Session::poll() {
  Inner& in = *inner_;
  for (const auto footage : in.work.poll()) {
    in.footage_news(footage);
    in.changed = true;
  }
  in.take_demo();
  if (in.checking.poll()) in.changed = true;
  const auto played = in.playing.poll();
  if (played.changed) in.changed = true;
  if (played.fault) in.say(played.fault->sentence, true);
  if (played.ended) {
    // The film goes on with the next footage.
    const auto all = model::in_order(in.record());
    const auto here =
        std::find_if(all.begin(), all.end(), [&](const auto* f) { return f->id == in.playing.footage(); });
    if (here != all.end() && here + 1 != all.end() && !in.playing.loop()) {
      const double speed = in.playing.speed();
      in.turn_to((*(here + 1))->id, Moment());
      if (speed > 0) in.playing.toggle();
    }
  }
  if (const auto result = in.handing_over.poll()) {
    if (*result) {
      in.say("The script is in " + result->value() + ".");
    } else {
      in.say(result->fault().sentence, true);
    }
  }
  const bool changed = in.changed;
  in.changed = false;
  return changed;
}

SessionView Session::view() const {
  const Inner& in = *inner_;
  const Playing& playing = in.playing;
  SessionView view{.record = in.record(),
                   .report = in.checking.report(),
                   .cover = in.checking.cover(),
                   .footage = in.work.states(),
                   .notices = in.notices,
                   .recent = in.recent.paths()};
  view.revision = in.revision;
  view.just_made = in.just_made;
  view.jobs = in.work.jobs();
  if (const auto job = in.demo.job()) view.jobs.push_back(*job);
  if (in.checking.under_way()) view.jobs.push_back({"Checking the figures", 0});
  if (const auto job = in.handing_over.job()) view.jobs.push_back(*job);
  view.transport = {playing.footage(), playing.at(),      playing.frame_length(), playing.time_code(),
                    playing.playing(), playing.speed(),   playing.loop(),         playing.volume(),
                    playing.exact(),   playing.picture(), playing.dropped()};
  if (in.store) {
    view.has_record = true;
    view.path = in.store->path();
    view.name = fs::path(view.path).stem().string();
    if (const Fault* why = in.store->read_only()) view.read_only = why->sentence;
    view.undo_name = in.store->undo_name().value_or("");
    view.redo_name = in.store->redo_name().value_or("");
  }
  return view;
}

std::optional<double> Session::seconds_to_next_frame() const { return inner_->playing.seconds_to_next(); }

}  // namespace sash::session
