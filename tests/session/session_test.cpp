#include "session/session.h"

#include <gtest/gtest.h>

#include <thread>

#include "session/proposing.h"
#include "session/scratch.h"

namespace sash::session {
namespace {

constexpr const char* captions = "1\r\n00:00:01,000 --> 00:00:03,000\r\nWe begin with zinc.\r\n\r\n";

Setup quiet() {
  session::Setup setup;
  setup.background = false;
  setup.sound = false;
  return setup;
}

// Lets background work arrive until `done` says so; a minute is far more than it takes.
template <class Condition>
bool wait_for(Session& session, Condition done) {
  const auto deadline = std::chrono::steady_clock::now() + std::chrono::minutes(1);
  while (std::chrono::steady_clock::now() < deadline) {
    session.poll();
    if (done(session.view())) return true;
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  return false;
}

TEST(Session, BeginsPinsUndoesAndReopens) {
  const Scratch scratch;
  const auto record = scratch.path("a.sash");
  {
    Session session(quiet());
    ASSERT_TRUE(session.apply(BeginRecord{record, {}, {scratch.write("talk.srt", captions)}}).ok());
    ASSERT_EQ(session.view().record.lines.size(), 1U);
    const auto footage = session.view().record.footages[0].id;
    ASSERT_TRUE(session.apply(Seek{footage, Moment::seconds(2), true}).ok());
    ASSERT_TRUE(session.apply(PinHere{PinKind::figure}).ok());
    ASSERT_TRUE(session.view().just_made);
    EXPECT_EQ(session.view().record.figures[0].place.from, Moment::seconds(2));
    EXPECT_EQ(session.view().undo_name, "Pin figure");
  }
  Session session(quiet());
  ASSERT_TRUE(session.apply(OpenRecord{record}).ok());
  EXPECT_EQ(session.view().record.figures.size(), 1U);
  ASSERT_TRUE(session.apply(Undo{}).ok());
  EXPECT_TRUE(session.view().record.figures.empty()) << "undo reaches back over the reopening";
  ASSERT_TRUE(session.apply(Redo{}).ok());
  EXPECT_EQ(session.view().record.figures.size(), 1U);
}

TEST(Session, AFaultLeavesTheRecordAsItWasAndIsSaid) {
  const Scratch scratch;
  Session session(quiet());
  const Done nothing_open = session.apply(PinHere{PinKind::note});
  ASSERT_FALSE(nothing_open.ok());
  ASSERT_TRUE(session.apply(BeginRecord{scratch.path("a.sash"), {}, {}}).ok());
  const auto before = session.view().record;
  EXPECT_FALSE(session.apply(AddFiles{{scratch.write("x.mp4", "this is text")}}).ok());
  EXPECT_EQ(session.view().record, before);
  EXPECT_TRUE(session.view().notices.back().fault);
}

TEST(Session, OpensTheRecordThoughItsFootageIsGoneAndFindsItAgain) {
  const Scratch scratch;
  const auto clip = scratch.clip("clip.mp4", 1);
  const auto record = scratch.path("a.sash");
  {
    Session session(quiet());
    ASSERT_TRUE(session.apply(BeginRecord{record, {clip}, {}}).ok());
    EXPECT_EQ(session.view().record.footages[0].path, "clip.mp4") << "kept relative to the record";
  }
  const auto moved = scratch.path("elsewhere.mp4");
  std::filesystem::rename(clip, moved);
  session::Setup setup = quiet();
  setup.background = true;
  Session session(setup);
  ASSERT_TRUE(session.apply(OpenRecord{record}).ok());
  const auto id = session.view().record.footages[0].id;
  ASSERT_TRUE(
      wait_for(session, [&](const SessionView& v) { return v.footage.at(id).missing && v.footage.at(id).fault; }));
  EXPECT_EQ(session.view().transport.footage, id) << "there is a playhead to pin at, and a place to say where it is";
  const auto says_it_is_gone = [&](const SessionView& v) {
    return std::any_of(v.notices.begin(), v.notices.end(), [&](const Notice& n) { return n.missing == id; });
  };
  EXPECT_TRUE(says_it_is_gone(session.view()));

  const auto other = scratch.clip("other.mp4", 2);
  const Done wrong = session.apply(FindFootageAgain{id, other});
  ASSERT_FALSE(wrong.ok());
  EXPECT_NE(wrong.fault().sentence.find("another clip"), std::string::npos);
  ASSERT_TRUE(session.apply(AddFiles{{moved}}).ok());  // dropped on the window: known by its content
  ASSERT_EQ(session.view().record.footages.size(), 1U);
  EXPECT_TRUE(wait_for(session, [&](const SessionView& v) { return v.footage.at(id).index != nullptr; }));
  EXPECT_FALSE(says_it_is_gone(session.view())) << "what was said of it is over";
}

TEST(Session, BackgroundWorkBringsIndexSoundAndStills) {
  const Scratch scratch;
  session::Setup setup = quiet();
  setup.background = true;
  setup.cache_folder = scratch.path("cache");
  Session session(setup);
  ASSERT_TRUE(session.apply(BeginRecord{scratch.path("a.sash"), {scratch.clip("clip.mp4", 5)}, {}}).ok());
  const auto id = session.view().record.footages[0].id;
  ASSERT_TRUE(wait_for(session, [&](const SessionView& v) {
    const auto& state = v.footage.at(id);
    return state.index && state.waveform && state.stills.size() == 3 && v.jobs.empty() && v.transport.picture;
  }));
  const auto view = session.view();
  EXPECT_EQ(view.footage.at(id).index->count(), 125U) << "5 s at 25 frames a second";
  EXPECT_EQ(view.transport.at, Moment());
  EXPECT_EQ(view.transport.time_code, "00:00:00:00");
}

TEST(Session, ASecondDeskReadsOnly) {
  const Scratch scratch;
  Session first(quiet());
  ASSERT_TRUE(first.apply(BeginRecord{scratch.path("a.sash"), {}, {scratch.write("talk.srt", captions)}}).ok());
  Session second(quiet());
  ASSERT_TRUE(second.apply(OpenRecord{scratch.path("a.sash")}).ok());
  EXPECT_TRUE(second.view().read_only);
  EXPECT_FALSE(second.apply(PinHere{PinKind::note}).ok());
  EXPECT_FALSE(first.view().read_only);
}

TEST(Session, ADropWithoutARecordBeginsOneBesideTheFile) {
  const Scratch scratch;
  Session session(quiet());
  ASSERT_TRUE(session.apply(AddFiles{{scratch.write("talk.srt", captions)}}).ok());
  EXPECT_EQ(session.view().path, scratch.path("talk.sash"));
  EXPECT_EQ(session.view().record.lines.size(), 1U);
}

TEST(Session, TheScriptIsTheSameBytesEachTime) {
  const Scratch scratch;
  session::Setup setup = quiet();
  Session session(setup);
  ASSERT_TRUE(session
                  .apply(BeginRecord{
                      scratch.path("a.sash"), {scratch.clip("clip.mp4", 3)}, {scratch.write("clip.srt", captions)}})
                  .ok());
  for (const char* folder : {"one", "two"}) {
    ASSERT_TRUE(session.apply(ExportScript{scratch.path(folder)}).ok());
    ASSERT_TRUE(wait_for(session, [&](const SessionView& v) {
      return !v.notices.empty() && v.notices.back().sentence == "The script is in " + scratch.path(folder) + ".";
    }));
  }
  int files = 0;
  for (const auto& file : std::filesystem::directory_iterator(scratch.path("one"))) {
    const auto name = file.path().filename().string();
    const auto read = [](const std::string& path) {
      std::ifstream in(path, std::ios::binary);
      return std::string(std::istreambuf_iterator<char>(in), {});
    };
    const auto bytes = read(file.path().string());
    EXPECT_EQ(bytes, read(scratch.path("two/" + name))) << name;
    const bool nothing_to_say = name == "chapters.txt" || name == "callouts.srt";
    EXPECT_EQ(bytes.empty(), nothing_to_say) << name;
    ++files;
  }
  EXPECT_EQ(files, 8);
}

TEST(Session, CaptionsBringProposalsThatStandOnlyWhenAccepted) {
  const Scratch scratch;
  Session session(quiet());
  const auto talk = scratch.write(
      "talk.srt", "1\n00:00:01,000 --> 00:00:06,000\nWe weigh out 2.0 grams of zinc, which is 0.306 moles.\n");
  ASSERT_TRUE(session.apply(BeginRecord{scratch.path("a.sash"), {}, {talk}}).ok());
  const auto proposed = open_proposals(session.view().record);
  ASSERT_GE(proposed.size(), 2U);
  EXPECT_TRUE(session.view().report.findings.empty()) << "what nobody accepted is not checked";
  ASSERT_TRUE(session.apply(Accept{proposed}).ok());
  // 2.0 g / 65.38 g/mol (IUPAC 2021) = 0.0306 mol: the decimal slipped.
  EXPECT_EQ(session.view().report.count(workings::Verdict::conflicts), 1U);
  ASSERT_TRUE(session.apply(Undo{}).ok());
  ASSERT_TRUE(session.apply(Refuse{proposed}).ok());
  ASSERT_TRUE(session.apply(ReadNarration{}).ok());
  EXPECT_TRUE(open_proposals(session.view().record).empty()) << "what was refused does not come back";
}

TEST(Session, PastedCaptionsBeginARecordOfTheirOwn) {
  const Scratch scratch;
  session::Setup setup = quiet();
  setup.own_folder = scratch.path("");
  Session session(setup);
  ASSERT_TRUE(session.apply(AddText{captions}).ok());
  const auto view = session.view();
  ASSERT_TRUE(view.has_record);
  EXPECT_TRUE(view.path.starts_with(scratch.path(""))) << view.path;
  ASSERT_EQ(view.record.lines.size(), 1U);
  EXPECT_EQ(view.record.lines[0].when.from, Moment::seconds(1));
  EXPECT_TRUE(view.transport.footage.known()) << "pins can be made before the clip is there";
}

TEST(Session, APastedScriptWithoutTimesBeginsAtThePlayhead) {
  const Scratch scratch;
  Session session(quiet());
  const auto talk = scratch.write("talk.srt", captions);
  ASSERT_TRUE(session.apply(BeginRecord{scratch.path("a.sash"), {}, {talk}}).ok());
  ASSERT_TRUE(session.apply(Seek{session.view().record.footages[0].id, Moment::seconds(40), true}).ok());
  ASSERT_TRUE(session.apply(AddText{"Now we add 20 mL of water.\n\nThen 5 g of salt."}).ok());
  const auto view = session.view();
  ASSERT_EQ(view.record.lines.size(), 3U);
  EXPECT_EQ(view.record.lines[1].when.from, Moment::seconds(40));
  EXPECT_GT(view.record.lines[2].when.from, Moment::seconds(40));
  EXPECT_EQ(view.record.figures.size(), 2U) << "and is read for figures like any narration";
}

TEST(Session, PastedNonsenseChangesNothingAndIsSaid) {
  const Scratch scratch;
  session::Setup setup = quiet();
  setup.own_folder = scratch.path("");
  Session session(setup);
  EXPECT_FALSE(session.apply(AddText{"   \n  "}).ok());
  EXPECT_FALSE(session.view().has_record);
  EXPECT_TRUE(session.view().notices.back().fault);
}

TEST(Session, OnlyWhatIsNewCountsAsJustMade) {
  const Scratch scratch;
  Session session(quiet());
  const auto talk = scratch.write("talk.srt", captions);
  ASSERT_TRUE(session.apply(BeginRecord{scratch.path("a.sash"), {}, {talk}}).ok());
  ASSERT_TRUE(session.apply(Seek{session.view().record.footages[0].id, Moment::seconds(2), true}).ok());
  ASSERT_TRUE(session.apply(PinHere{PinKind::hazard}).ok());
  const auto hazard = session.view().just_made;
  ASSERT_TRUE(session.apply(PinHere{PinKind::note}).ok());
  const auto note = session.view().just_made;
  ASSERT_NE(note, hazard);
  ASSERT_TRUE(session.apply(MovePin{*hazard, Moment::seconds(1)}).ok());
  EXPECT_EQ(session.view().just_made, note) << "a pin that was moved is not made again";
}

TEST(Session, TheDemoIsMadeOnTheSideAndOpensByItself) {
  const Scratch scratch;
  session::Setup setup = quiet();
  setup.demo_folder = scratch.path("demo");
  setup.make_demo = [&](const std::string& folder, Progress& progress) -> Outcome<std::string> {
    progress.at(0.5);
    std::filesystem::create_directories(folder);
    const std::string path = folder + "/demo.sash";
    Session maker(quiet());
    const Done made = maker.apply(BeginRecord{path, {}, {scratch.write("talk.srt", captions)}});
    if (!made) return made.fault();
    return path;
  };
  Session session(setup);
  ASSERT_TRUE(session.apply(OpenDemo{}).ok());
  EXPECT_TRUE(wait_for(session, [](const SessionView& v) { return v.has_record; }));
  EXPECT_EQ(session.view().name, "demo");
  EXPECT_TRUE(session.view().jobs.empty());
}

}  // namespace
}  // namespace sash::session
