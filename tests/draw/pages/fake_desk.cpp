#include "draw/pages/fake_desk.h"

#include <epoxy/gl.h>

#include <algorithm>
#include <cmath>

#include "model/edit.h"

namespace sash::testing {
namespace {

// A drawn bench: a table, a beaker whose content changes with time, a balance.
std::vector<std::uint8_t> scene(int width, int height, double seconds) {
  std::vector<std::uint8_t> rgba(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 4);
  const double hue = std::fmod(seconds / 40, 1.0);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const double u = (x + 0.5) / width;
      const double v = (y + 0.5) / height;
      double r = 62 + 40 * (1 - v);
      double g = 66 + 38 * (1 - v);
      double b = 70 + 36 * (1 - v);
      if (v > 0.78) r = 118 - 40 * (v - 0.78), g = 98 - 40 * (v - 0.78), b = 80;
      if (u > 0.36 && u < 0.62 && v > 0.26 && v < 0.80) {  // glass
        r += 26, g += 30, b += 32;
        if (v > 0.48) r = 40 + 130 * hue, g = 110 + 40 * (1 - hue), b = 190 - 130 * hue;
        if (u < 0.372 || u > 0.608 || v > 0.785) r = 205, g = 212, b = 215;
      }
      const double smoke = std::exp(-((u - 0.5) * (u - 0.5) * 60 + (v - 0.24) * (v - 0.24) * 90));
      r += 120 * smoke * hue, g += 60 * smoke * hue;
      if (u > 0.70 && u < 0.93 && v > 0.66 && v < 0.80) r = 190, g = 192, b = 190;
      if (u > 0.73 && u < 0.86 && v > 0.70 && v < 0.76) r = 40, g = 60, b = 44;
      auto* p =
          &rgba[(static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)) * 4];
      p[0] = static_cast<std::uint8_t>(std::clamp(r, 0.0, 255.0));
      p[1] = static_cast<std::uint8_t>(std::clamp(g, 0.0, 255.0));
      p[2] = static_cast<std::uint8_t>(std::clamp(b, 0.0, 255.0));
      p[3] = 255;
    }
  }
  return rgba;
}

template <class Id, class List>
Id next_id(const List& list) {
  return list.empty() ? Id{1} : Id{list.back().id.number + 1};
}

}  // namespace

class FakeDesk::Pictures final : public desk::Surfaces {
 public:
  explicit Pictures(bool pixels) : pixels_(pixels) {}

  desk::Surface video(const session::Transport& transport, float, float) override {
    return picture(~std::uint64_t{0}, 640, 360, transport.at.in_seconds());
  }
  desk::Surface still(const session::Still& still) override {
    return picture(still.key, still.width, still.height, still.at.in_seconds());
  }

 private:
  desk::Surface picture(std::uint64_t key, int width, int height, double seconds) {
    const auto shape =
        desk::Surface{reinterpret_cast<ImTextureID>(1), static_cast<float>(width), static_cast<float>(height)};
    if (!pixels_) return shape;
    auto [there, fresh] = textures_.try_emplace(key, 0);
    if (fresh) {
      const auto rgba = scene(width, height, seconds);
      glGenTextures(1, &there->second);
      glBindTexture(GL_TEXTURE_2D, there->second);
      glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
      glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
      glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, rgba.data());
    }
    return {reinterpret_cast<ImTextureID>(static_cast<std::uintptr_t>(there->second)), shape.width, shape.height};
  }

  bool pixels_;
  std::map<std::uint64_t, GLuint> textures_;
};

FakeDesk::FakeDesk(model::Record record, FakeLook look)
    : record_(std::move(record)),
      app_(desk::Settings{}),
      harness_(std::make_unique<Harness>(HarnessLook{look.width, look.height, look.scale, look.theme, look.pixels})),
      pictures_(std::make_unique<Pictures>(look.pixels)) {
  report_ = workings::check(record_);
  cover_ = safety::check_cover(record_);
  if (!record_.footages.empty()) transport_.footage = record_.footages.front().id;
  transport_.frame_length = Moment::rational(1, 1001, 30000);
  transport_.time_code = "01:00:00;00";
  for (const auto& f : record_.footages) {
    session::FootageState state;
    media::FootageFacts facts;
    facts.container = "mp4";
    media::VideoFacts video;
    video.codec = "h264";
    video.shown = {1280, 720};
    video.rate = media::Rate{30000, 1001};
    facts.video = video;
    media::AudioFacts audio;
    audio.codec = "aac";
    audio.layout = "stereo";
    facts.audio = audio;
    state.facts = facts;
    auto wave = std::make_shared<media::Waveform>();
    const auto steps = static_cast<std::size_t>(f.duration.in_seconds() * 100);
    const bool brief = f.duration < Moment::seconds(1000);
    for (std::size_t i = 0; i < steps; ++i) {
      const double t = static_cast<double>(i) / 100;
      bool spoken = !brief;
      for (const auto& l : record_.lines) {
        if (!brief) break;
        spoken = spoken || (l.footage == f.id && l.when.holds(Moment::seconds(t)));
      }
      const double loud = spoken ? 0.25 + 0.55 * std::abs(std::sin(t * 9.1) * std::sin(t * 2.3 + 1)) : 0.03;
      wave->steps.push_back({static_cast<std::int16_t>(-loud * 30000), static_cast<std::int16_t>(loud * 28000)});
    }
    state.waveform = wave;
    for (double t = 0; t < std::min(f.duration.in_seconds(), 600.0); t += 2) {
      session::Still still;
      still.at = Moment::seconds(t);
      still.width = 160;
      still.height = 90;
      still.key = static_cast<std::uint64_t>(f.id.number) * 100000 + static_cast<std::uint64_t>(t);
      state.stills.push_back(still);
    }
    footage[f.id] = std::move(state);
  }
  harness_->show([this](desk::Kit& kit) { frame(kit); });
}

FakeDesk::~FakeDesk() = default;

void FakeDesk::changed() {
  ++revision_;
  report_ = workings::check(record_);
  cover_ = safety::check_cover(record_);
  harness_->settle();
}

session::SessionView FakeDesk::view() const {
  return {.has_record = has_record,
          .path = has_record ? "/lessons/copper.sash" : "",
          .name = "copper",
          .read_only = read_only,
          .record = record_,
          .revision = revision_,
          .report = report_,
          .cover = cover_,
          .footage = footage,
          .transport = transport_,
          .undo_name = undo_.empty() ? "" : "Edit figure",
          .redo_name = "",
          .just_made = just_made_,
          .notices = notices,
          .jobs = jobs,
          .recent = recent,
          .now_frame = 0};
}

void FakeDesk::frame(desk::Kit& kit) {
  const desk::Host host{*pictures_, can_choose, [this](const std::string&) { return folder; }};
  const auto result = app_.frame(kit, view(), host);
  for (const auto& intent : result.intents) {
    intents_.push_back(intent);
    apply(intent);
  }
}

void FakeDesk::apply(const session::Intent& intent) {
  const auto edit = [&](auto&& change) {
    undo_.push_back(record_);
    change();
    ++revision_;
    report_ = workings::check(record_);
    cover_ = safety::check_cover(record_);
  };
  const model::Place here{transport_.footage, transport_.at, std::nullopt};
  if (const auto* seek = std::get_if<session::Seek>(&intent)) {
    transport_.footage = seek->footage;
    transport_.at = seek->to;
    transport_.exact = seek->settled;
  } else if (std::holds_alternative<session::TogglePlay>(intent)) {
    transport_.playing = !transport_.playing;
  } else if (const auto* volume = std::get_if<session::SetVolume>(&intent)) {
    transport_.volume = volume->volume;
  } else if (const auto* pin = std::get_if<session::PinHere>(&intent)) {
    edit([&] {
      if (pin->kind == session::PinKind::hazard) {
        model::Hazard h;
        h.id = next_id<model::HazardId>(record_.hazards);
        h.place = here;
        record_.hazards.push_back(h);
        just_made_ = h.id;
      } else {
        model::Figure f;
        f.id = next_id<model::FigureId>(record_.figures);
        f.place = here;
        record_.figures.push_back(f);
        just_made_ = f.id;
      }
    });
  } else if (const auto* put = std::get_if<session::PutThing>(&intent)) {
    edit([&] {
      std::visit(
          [&]<class T>(T thing) {
            auto& list = record_.list<T>();
            if (!thing.id.known()) {
              thing.id = next_id<decltype(thing.id)>(list);
              just_made_ = thing.id;
              list.push_back(thing);
              return;
            }
            const auto at = std::find_if(list.begin(), list.end(), [&](const T& t) { return t.id == thing.id; });
            if (at != list.end()) *at = thing;
          },
          put->thing);
    });
  } else if (const auto* accept = std::get_if<session::Accept>(&intent)) {
    edit([&] {
      const auto confirm = [&](auto& list) {
        for (auto& each : list) {
          const bool named = std::find(accept->things.begin(), accept->things.end(), session::ThingRef(each.id)) !=
                             accept->things.end();
          if (named) each.origin.standing = model::Standing::confirmed;
        }
      };
      confirm(record_.figures);
      confirm(record_.relations);
      confirm(record_.hazards);
      confirm(record_.callouts);
    });
  } else if (std::holds_alternative<session::Undo>(intent) && !undo_.empty()) {
    record_ = undo_.back();
    undo_.pop_back();
    ++revision_;
  }
}

}  // namespace sash::testing
