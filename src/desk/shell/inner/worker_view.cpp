#include "desk/shell/inner/worker_view.h"

#include <condition_variable>
#include <mutex>
#include <optional>
#include <thread>

#include "desk/shell/inner/gl.h"
#include "media/rgba.h"

namespace sash::desk::inner {
namespace {

using media::PicturePtr;
using media::Size;

/// Converts pictures one after another on its own thread; a newer wish replaces one that has not begun.
class Converter {
 public:
  struct Wish {
    PicturePtr picture;
    Size room;
    bool operator==(const Wish&) const = default;
  };
  struct Made {
    Wish wish;
    media::RgbaImage image;
  };

  explicit Converter(std::function<void()> wake)
      : wake_(std::move(wake)), thread_([this](const std::stop_token& stop) { work(stop); }) {}

  void want(Wish wish) {
    {
      const std::lock_guard lock(mutex_);
      wish_ = std::move(wish);
    }
    ready_.notify_one();
  }
  std::optional<Made> take() {
    const std::lock_guard lock(mutex_);
    return std::exchange(made_, std::nullopt);
  }

 private:
  void work(const std::stop_token& stop) {
    media::RgbaMaker maker;
    for (;;) {
      Wish wish;
      {
        std::unique_lock lock(mutex_);
        if (!ready_.wait(lock, stop, [this] { return wish_.has_value(); })) return;
        wish = *std::exchange(wish_, std::nullopt);
      }
      media::RgbaImage image = maker.make(*wish.picture, wish.room, media::Quality::fast);
      {
        const std::lock_guard lock(mutex_);
        made_ = Made{std::move(wish), std::move(image)};
      }
      if (wake_) wake_();
    }
  }

  std::function<void()> wake_;
  std::mutex mutex_;
  std::condition_variable_any ready_;  // guarded by mutex_: wish_, made_
  std::optional<Wish> wish_;
  std::optional<Made> made_;
  std::jthread thread_;  // last: stopped and joined before what it uses goes
};

class WorkerView final : public VideoView {
 public:
  explicit WorkerView(std::function<void()> wake) : converter_(std::move(wake)) {}

  ShownPicture show(const PicturePtr& picture, Size room) override {
    if (!picture) return {};
    if (auto made = converter_.take()) upload(made->image);
    const Converter::Wish wish{picture, room};
    if (wish != wished_) {
      wished_ = wish;
      converter_.want(wish);
    }
    return {size_.empty() ? 0 : texture_.name(), size_};
  }

 private:
  void upload(const media::RgbaImage& image) {
    texture_.bind_smooth();
    if (image.size != size_) {
      glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, image.size.width, image.size.height, 0, GL_RGBA, GL_UNSIGNED_BYTE,
                   image.pixels.data());
      size_ = image.size;
    } else {
      glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, size_.width, size_.height, GL_RGBA, GL_UNSIGNED_BYTE,
                      image.pixels.data());
    }
  }

  Texture texture_;
  Size size_;
  Converter::Wish wished_;
  Converter converter_;
};

}  // namespace

Outcome<std::unique_ptr<VideoView>> make_worker_view(std::function<void()> wake) {
  return std::unique_ptr<VideoView>(std::make_unique<WorkerView>(std::move(wake)));
}

}  // namespace sash::desk::inner
