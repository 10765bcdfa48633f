#include "media/inner/sound_device.h"

#define SDL_MAIN_HANDLED
#include <SDL.h>

namespace sash::media::inner {

std::unique_ptr<SoundDevice> SoundDevice::open(Pull pull) {
  SDL_SetHint(SDL_HINT_NO_SIGNAL_HANDLERS, "1");
  if (SDL_InitSubSystem(SDL_INIT_AUDIO) != 0) return nullptr;
  std::unique_ptr<SoundDevice> device(new SoundDevice(std::move(pull)));
  SDL_AudioSpec wanted{};
  wanted.freq = rate;
  wanted.format = AUDIO_F32SYS;
  wanted.channels = channels;
  wanted.samples = 1024;
  wanted.userdata = device.get();
  wanted.callback = [](void* self, Uint8* bytes, int length) {
    const auto& pulled = static_cast<SoundDevice*>(self)->pull_;
    pulled(std::span(reinterpret_cast<float*>(bytes), static_cast<std::size_t>(length) / sizeof(float)));
  };
  SDL_AudioSpec given{};
  device->id_ = SDL_OpenAudioDevice(nullptr, 0, &wanted, &given, 0);
  if (device->id_ == 0) return nullptr;
  device->buffer_frames_ = given.samples;
  return device;
}

SoundDevice::~SoundDevice() {
  if (id_ != 0) SDL_CloseAudioDevice(id_);
  SDL_QuitSubSystem(SDL_INIT_AUDIO);
}

void SoundDevice::leave_thread() { SDL_TLSCleanup(); }

void SoundDevice::run(bool yes) { SDL_PauseAudioDevice(id_, yes ? 0 : 1); }

}  // namespace sash::media::inner
