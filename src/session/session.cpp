#include "session/session.h"

#include <filesystem>

#include "session/inner/holdings.h"

namespace sash::session {

using inner::Holdings;
using inner::no_record;

struct Session::Inner : Holdings {
  using Holdings::Holdings;
};

Session::Session(Setup setup) : inner_(std::make_unique<Inner>(std::move(setup))) {}
Session::~Session() = default;

namespace {

bool rewords(const model::Record& record, const model::Thing& thing) {
  const auto* line = std::get_if<model::NarrationLine>(&thing);
  const auto* stored = line != nullptr ? model::find(record, line->id) : nullptr;
  return line != nullptr && (stored == nullptr || stored->text != line->text);
}

// One function for each intent, found by overload.
struct CarryOut {
  Holdings& in;

  Done operator()(const OpenRecord& i) { return in.open(i.path); }
  Done operator()(const BeginRecord& i) { return in.begin(i); }
  Done operator()(const OpenDemo&) { return in.begin_demo(); }
  Done operator()(const CloseRecord&) { return in.close(), Done(); }
  Done operator()(const AddFiles& i) { return in.add_files(i.paths); }
  Done operator()(const AddText& i) { return in.add_text(i.text); }
  Done operator()(const FindFootageAgain& i) { return in.find_again(i); }
  Done operator()(const SaveCopy& i) {
    if (!in.store) return no_record();
    if (const Done done = in.store->save_copy(i.path); !done) return done;
    in.say("The copy is " + i.path + ".", Holdings::News::result);
    return {};
  }

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
    const bool reworded = rewords(in.record(), i.thing);
    const Done done = in.carry_out(put_thing(in.record(), in.ids(), i.thing, i.name));
    if (!done || !reworded) return done;
    return in.read_again();  // what is said now
  }
  Done operator()(const PutBench& i) { return in.carry_out(put_bench(in.record(), i.bench)); }
  Done operator()(const MovePin& i) { return in.carry_out(move_pin(in.record(), i.thing, i.from)); }
  Done operator()(const RemoveThings& i) { return in.carry_out(remove_things(in.record(), i.things)); }
  Done operator()(const Accept& i) { return in.carry_out(settle(in.record(), i.things, model::Standing::confirmed)); }
  Done operator()(const Refuse& i) { return in.carry_out(settle(in.record(), i.things, model::Standing::refused)); }
  Done operator()(const Undo&) { return step_back(true); }
  Done operator()(const Redo&) { return step_back(false); }

  Done operator()(const ReadNarration&) { return in.read_again(); }
  Done operator()(const StopWork& i) { return in.stop_work(i.what); }
  Done operator()(const ExportScript& i) {
    if (!in.store) return no_record();
    in.export_script(i.folder);
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
  Done done = std::visit(CarryOut{*inner_}, intent);
  if (!done) inner_->say(done.fault().sentence, Holdings::News::fault);
  return done;
}

bool Session::poll() {
  Holdings& in = *inner_;
  for (const auto footage : in.work.poll()) {
    in.footage_news(footage);
    in.changed = true;
  }
  in.take_demo();
  in.take_reading();
  if (in.checking.poll()) in.changed = true;
  const auto played = in.playing.poll();
  if (played.changed) in.changed = true;
  if (played.fault) in.say(played.fault->sentence, Holdings::News::fault);
  if (played.ended) in.turn_to_next();
  in.take_script();
  const bool changed = in.changed;
  in.changed = false;
  return changed;
}

SessionView Session::view() const {
  const Holdings& in = *inner_;
  const Playing& playing = in.playing;
  SessionView view{.record = in.record(),
                   .report = in.checking.report(),
                   .cover = in.checking.cover(),
                   .footage = in.work.states(),
                   .notices = in.notices,
                   .recent = in.recent.paths()};
  view.revision = in.revision;
  view.just_made = in.just_made;
  // What the person asked for comes first.
  for (const auto& job : {in.reading_job.job(), in.script_job.job(), in.demo_job.job()}) {
    if (job) view.jobs.push_back(*job);
  }
  const auto of_footage = in.work.jobs();
  view.jobs.insert(view.jobs.end(), of_footage.begin(), of_footage.end());
  if (in.checking.under_way()) view.jobs.push_back({"Checking the figures", 0});
  view.transport = {playing.footage(), playing.at(),      playing.frame_length(), playing.time_code(),
                    playing.playing(), playing.speed(),   playing.loop(),         playing.volume(),
                    playing.exact(),   playing.picture(), playing.dropped()};
  if (in.store) {
    view.has_record = true;
    view.path = in.store->path();
    view.name = std::filesystem::path(view.path).stem().string();
    if (const Fault* why = in.store->read_only()) view.read_only = why->sentence;
    view.undo_name = in.store->undo_name().value_or("");
    view.redo_name = in.store->redo_name().value_or("");
  }
  return view;
}

std::optional<double> Session::seconds_to_next_frame() const { return inner_->playing.seconds_to_next(); }

}  // namespace sash::session
