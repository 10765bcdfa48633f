#include <gtest/gtest.h>

#include <thread>

#include "session/scratch.h"
#include "session/session.h"

namespace sash::session {
namespace {

class Transport : public ::testing::Test {
 protected:
  void SetUp() override {
    session::Setup setup;
    setup.sound = false;
    session_ = std::make_unique<Session>(setup);
    ASSERT_TRUE(session_
                    ->apply(BeginRecord{
                        scratch_.path("a.sash"), {scratch_.clip("one.mp4", 2), scratch_.clip("two.mp4", 1)}, {}})
                    .ok());
    first_ = session_->view().record.footages[0].id;
    second_ = session_->view().record.footages[1].id;
    ASSERT_TRUE(until([&](const SessionView& v) {
      return v.footage.at(first_).index && v.footage.at(second_).index && v.transport.picture && v.transport.exact;
    }));
  }

  template <class Condition>
  bool until(Condition done) {
    const auto deadline = std::chrono::steady_clock::now() + std::chrono::minutes(1);
    while (std::chrono::steady_clock::now() < deadline) {
      session_->poll();
      if (done(session_->view())) return true;
      std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    return false;
  }

  bool settles_at(Moment at) {
    return until([&](const SessionView& v) {
      return v.transport.exact && v.transport.picture && v.transport.picture->at == at && v.transport.at == at;
    });
  }

  static Moment frame(int n) { return Moment::rational(n, 1, 25); }

  Scratch scratch_;
  std::unique_ptr<Session> session_;
  model::FootageId first_;
  model::FootageId second_;
};

TEST_F(Transport, SeeksToTheFrameOnScreenAtThatTime) {
  ASSERT_TRUE(session_->apply(Seek{first_, Moment::seconds(0.999), true}).ok());
  EXPECT_TRUE(settles_at(frame(24)));
  EXPECT_EQ(session_->view().transport.time_code, "00:00:00:24");
  ASSERT_TRUE(session_->apply(Seek{first_, Moment::seconds(500), true}).ok());
  EXPECT_TRUE(settles_at(frame(49))) << "past the end is the last frame";
}

TEST_F(Transport, StepsAddUpEvenWhilePicturesAreStillBeingMade) {
  ASSERT_TRUE(session_->apply(Seek{first_, frame(20), true}).ok());
  ASSERT_TRUE(settles_at(frame(20)));
  for (int i = 0; i < 5; ++i) ASSERT_TRUE(session_->apply(StepFrames{1}).ok());
  EXPECT_TRUE(settles_at(frame(25)));
  ASSERT_TRUE(session_->apply(StepFrames{-7}).ok());
  EXPECT_TRUE(settles_at(frame(18)));
  ASSERT_TRUE(session_->apply(StepFrames{-100}).ok());
  EXPECT_TRUE(settles_at(frame(0)));
}

TEST_F(Transport, PlaysOnIntoTheNextFootage) {
  ASSERT_TRUE(session_->apply(Seek{first_, Moment::seconds(1.8), true}).ok());
  ASSERT_TRUE(settles_at(frame(45)));
  ASSERT_TRUE(session_->apply(TogglePlay{}).ok());
  EXPECT_TRUE(session_->view().transport.playing);
  EXPECT_TRUE(until([&](const SessionView& v) { return v.transport.footage == second_ && v.transport.playing; }));
}

TEST_F(Transport, ALoopStaysInsideItsSpan) {
  ASSERT_TRUE(session_->apply(LoopOver{Stretch{frame(10), frame(15)}}).ok());
  ASSERT_TRUE(session_->apply(Seek{first_, frame(10), true}).ok());
  ASSERT_TRUE(settles_at(frame(10)));
  ASSERT_TRUE(session_->apply(TogglePlay{}).ok());
  Moment last;
  int wraps = 0;
  ASSERT_TRUE(until([&](const SessionView& v) {
    const Moment at = v.transport.picture->at;
    EXPECT_GE(at, frame(10));
    EXPECT_LT(at, frame(15));
    if (at < last) ++wraps;
    last = at;
    return wraps >= 2;
  }));
}

TEST_F(Transport, ShuttlesBothWaysAndStops) {
  ASSERT_TRUE(session_->apply(Seek{first_, frame(40), true}).ok());
  ASSERT_TRUE(settles_at(frame(40)));
  ASSERT_TRUE(session_->apply(Shuttle{-1}).ok());
  EXPECT_LT(session_->view().transport.speed, 0);
  EXPECT_TRUE(until([&](const SessionView& v) { return v.transport.at < frame(38); }));
  ASSERT_TRUE(session_->apply(Shuttle{0}).ok());
  EXPECT_FALSE(session_->view().transport.playing);
  EXPECT_TRUE(until([](const SessionView& v) { return v.transport.exact; }));
}

}  // namespace
}  // namespace sash::session
