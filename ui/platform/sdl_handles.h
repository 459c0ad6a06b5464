// ui/platform/sdl_handles.h -- owners of what SDL hands out. For the .cpp files of this folder.
#pragma once
#include <SDL.h>

#include <memory>

namespace ui {

struct SdlDelete {
  void operator()(SDL_Window* w) const { SDL_DestroyWindow(w); }
  void operator()(SDL_Renderer* r) const { SDL_DestroyRenderer(r); }
  void operator()(SDL_Texture* t) const { SDL_DestroyTexture(t); }
};

using WindowHandle = std::unique_ptr<SDL_Window, SdlDelete>;
using RendererHandle = std::unique_ptr<SDL_Renderer, SdlDelete>;
using TextureHandle = std::unique_ptr<SDL_Texture, SdlDelete>;

// SDL's subsystems, counted by SDL itself: the last owner stops them.
class SdlSystems {
 public:
  SdlSystems() = default;
  SdlSystems(const SdlSystems&) = delete;
  SdlSystems& operator=(const SdlSystems&) = delete;
  ~SdlSystems() { stop(); }

  bool start(Uint32 flags) {
    if (SDL_InitSubSystem(flags) != 0) return false;
    flags_ = flags;
    return true;
  }

  void stop() {
    if (flags_ != 0) SDL_QuitSubSystem(flags_);
    flags_ = 0;
  }

 private:
  Uint32 flags_ = 0;
};

// A hint that wins over the environment for as long as this lives.
class ForcedHint {
 public:
  ForcedHint(const char* name, const char* value) : name_(name) {
    SDL_SetHintWithPriority(name, value, SDL_HINT_OVERRIDE);
  }
  ForcedHint(const ForcedHint&) = delete;
  ForcedHint& operator=(const ForcedHint&) = delete;
  ~ForcedHint() { SDL_ResetHint(name_); }

 private:
  const char* name_;
};

}  // namespace ui
