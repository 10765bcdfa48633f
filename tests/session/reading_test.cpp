#include "session/reading.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <thread>

#include "session/scratch.h"
#include "session/session.h"

namespace sash::session {
namespace {

constexpr std::string_view short_talk =
    "1\n00:00:01,000 --> 00:00:04,000\nI weigh out 5.0 grams of copper sulfate pentahydrate.\n\n";

// Captions of that many lines, one in ten with a figure.
std::string captions(std::size_t lines) {
  std::string out;
  const auto clock = [](std::size_t s) { return fmt::format("{:02}:{:02}:{:02},000", s / 3600, s / 60 % 60, s % 60); };
  for (std::size_t i = 0; i < lines; ++i) {
    out += std::to_string(i + 1) + "\n" + clock(i * 4) + " --> " + clock(i * 4 + 3) + "\n";
    if (i % 10 == 0) out += "In go " + std::to_string(5 + i / 10) + " grams of sodium chloride. ";
    for (int k = 0; k < 8; ++k) out += "There is nothing to be seen yet, ";
    out += "is there?\n\n";
  }
  return out;
}
constexpr std::size_t long_talk = 450;  // lines: well over ordinary_narration

Setup at_the_desk() {
  session::Setup setup;
  setup.sound = false;
  return setup;
}

bool wait_until_read(Session& session) {
  const auto deadline = std::chrono::steady_clock::now() + std::chrono::minutes(2);
  while (std::chrono::steady_clock::now() < deadline) {
    session.poll();
    if (session.view().jobs.empty()) return true;
    std::this_thread::sleep_for(std::chrono::milliseconds(2));
  }
  return false;
}

bool reads(const Session& session) {
  const auto jobs = session.view().jobs;
  return std::any_of(jobs.begin(), jobs.end(), [](const Job& j) { return j.what == "Reading the narration"; });
}

TEST(Reading, AnOrdinaryNarrationIsThereAtOnce) {
  const Scratch scratch;
  Session session(at_the_desk());
  ASSERT_TRUE(session.apply(AddFiles{{scratch.write("talk.srt", std::string(short_talk))}}).ok());
  EXPECT_EQ(session.view().record.lines.size(), 1U);
  EXPECT_EQ(session.view().record.figures.size(), 1U);
  EXPECT_FALSE(reads(session));
}

TEST(Reading, ALongNarrationIsReadInTheBackgroundAndComesOutTheSame) {
  const Scratch scratch;
  const auto file = scratch.write("talk.srt", captions(long_talk));
  Session session(at_the_desk());
  ASSERT_TRUE(session.apply(AddFiles{{file}}).ok());
  EXPECT_TRUE(reads(session));
  EXPECT_TRUE(session.view().record.lines.empty()) << "the window has not waited for it";
  ASSERT_TRUE(wait_until_read(session));

  session::Setup at_once = at_the_desk();
  at_once.background = false;
  Session command(at_once);
  ASSERT_TRUE(command.apply(BeginRecord{scratch.path("at once.sash"), {}, {file}}).ok());
  ASSERT_EQ(command.view().record.lines.size(), long_talk);
  EXPECT_EQ(session.view().record.lines, command.view().record.lines);
  EXPECT_EQ(session.view().record.figures.size(), command.view().record.figures.size());
  EXPECT_EQ(session.view().undo_name, "Read narration");
}

TEST(Reading, WhatIsDoneMeanwhileStays) {
  const Scratch scratch;
  Session session(at_the_desk());
  ASSERT_TRUE(session.apply(AddFiles{{scratch.write("first.srt", std::string(short_talk))}}).ok());
  ASSERT_TRUE(session.apply(AddFiles{{scratch.write("talk.srt", captions(long_talk))}}).ok());
  ASSERT_TRUE(session.apply(PinHere{PinKind::note}).ok());
  ASSERT_TRUE(session.apply(PinHere{PinKind::figure}).ok());
  ASSERT_TRUE(wait_until_read(session));
  EXPECT_EQ(session.view().record.notes.size(), 1U);
  EXPECT_EQ(session.view().record.lines.size(), 1U + long_talk);
  EXPECT_EQ(session.view().record.figures.size(), 2U + long_talk / 10)
      << "one said in every tenth line, the one before, and the pin";
}

TEST(Reading, SeveralLongOnesComeInOneAfterTheOther) {
  const Scratch scratch;
  Session session(at_the_desk());
  const auto first = scratch.write("first.srt", captions(long_talk));
  const auto second = scratch.write("second.srt", "1\n00:00:00,500 --> 00:00:00,900\nHello.\n\n" + captions(long_talk));
  ASSERT_TRUE(session.apply(AddFiles{{first, second}}).ok());
  ASSERT_TRUE(wait_until_read(session));
  EXPECT_EQ(session.view().record.lines.size(), 1U + long_talk) << "the same lines are not taken twice";
}

TEST(Reading, StoppedNothingOfItComesIn) {
  const Scratch scratch;
  Session session(at_the_desk());
  ASSERT_TRUE(session.apply(AddFiles{{scratch.write("talk.srt", captions(long_talk))}}).ok());
  ASSERT_TRUE(session.apply(StopWork{"Reading the narration"}).ok());
  EXPECT_FALSE(reads(session));
  EXPECT_EQ(session.view().notices.back().sentence, "Stopped: Reading the narration.");
  std::this_thread::sleep_for(std::chrono::milliseconds(300));
  session.poll();
  EXPECT_TRUE(session.view().record.lines.empty());
}

TEST(Reading, ClosingTheRecordForgetsIt) {
  const Scratch scratch;
  Session session(at_the_desk());
  ASSERT_TRUE(session.apply(AddFiles{{scratch.write("talk.srt", captions(long_talk))}}).ok());
  ASSERT_TRUE(session.apply(CloseRecord{}).ok());
  ASSERT_TRUE(session.apply(BeginRecord{scratch.path("other.sash"), {}, {}}).ok());
  std::this_thread::sleep_for(std::chrono::milliseconds(300));
  session.poll();
  EXPECT_TRUE(session.view().record.lines.empty());
}

TEST(Reading, AFileThatIsNoNarrationIsSaidWhenItWasRead) {
  const Scratch scratch;
  Session session(at_the_desk());
  const std::string noise(ordinary_narration * 2, '\x01');
  ASSERT_TRUE(session.apply(AddFiles{{scratch.write("noise.srt", noise)}}).ok());
  ASSERT_TRUE(wait_until_read(session));
  EXPECT_TRUE(session.view().notices.back().fault);
  EXPECT_TRUE(session.view().record.lines.empty());
}

TEST(Reading, GivesUpBetweenItsStepsWhenStopped) {
  Progress progress;
  progress.cancel();
  const NewNumber ids = [n = std::int64_t{0}](const model::Thing&) mutable { return ++n; };
  const auto plan =
      plan_narration(model::Record{}, ids, PastedNarration{std::string(short_talk), Moment()}, {}, progress);
  ASSERT_FALSE(plan);
  EXPECT_EQ(plan.fault().code, Code::cancelled);
}

}  // namespace
}  // namespace sash::session
