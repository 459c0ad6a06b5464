// tests/bench/first_frame.cpp -- how long from the start until the keeper sees something, and from
// a tap until it is durable and shown. Prints medians; beside them, in the same run, a raw write
// and fdatasync of as many bytes. Usage: first_frame FOLDER ASSETS
#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <vector>

#include "storage/disk/random.h"
#include "ui/app/app_assets.h"
#include "ui/app/stage.h"

namespace {

using Clock = std::chrono::steady_clock;

double ms_since(Clock::time_point start) {
  return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

double at_part(std::vector<double> times, double part) {
  std::sort(times.begin(), times.end());
  return times[static_cast<std::size_t>(part * static_cast<double>(times.size() - 1))];
}

engine::Stamp stamp(std::int64_t second) {
  engine::Stamp s = *engine::stamp_from_rfc3339("2026-08-14T19:00:00-05:00");
  s.boot = "bench";
  return engine::after(s, engine::Seconds{second});
}

struct Shown {
  std::unique_ptr<ui::App> app;
  std::unique_ptr<ui::Stage> stage;
};

// Everything that stands between the call and the first picture.
Shown start(const std::string& store_path, const std::string& assets) {
  storage::IdMaker ids(1);
  storage::JournalOptions options;
  options.device = engine::uuid_text(ids(1));
  auto loaded = ui::load_assets(assets, {});
  auto store = storage::Store::open(store_path, options);
  auto display = ui::Display::open_headless({});
  if (!loaded.ok() || !store.ok() || !display.ok()) std::exit(1);
  ui::AppParts parts;
  parts.labels = std::move(loaded.value().labels);
  parts.themes = std::move(loaded.value().themes);
  parts.new_id = [ids](std::int64_t ms) mutable { return ids(ms); };
  Shown shown;
  shown.app = std::make_unique<ui::App>(std::move(store).value(), std::move(parts));
  auto stage = ui::Stage::on(std::move(display).value());
  if (!stage.ok()) std::exit(1);
  shown.stage = std::move(stage).value();
  shown.stage->show(*shown.app, stamp(0), 1000);
  return shown;
}

void bench_start(const std::string& folder, const std::string& assets) {
  std::vector<double> times;
  for (int i = 0; i < 15; ++i) {
    const auto from = Clock::now();
    const Shown shown = start(folder + "/first.journal", assets);
    times.push_back(ms_since(from));
  }
  std::printf("first frame (headless, software, in process): median %.1f ms, worst %.1f ms\n",
              at_part(times, 0.5), at_part(times, 1.0));
}

double raw_write(int fd, std::size_t bytes) {
  const std::vector<char> data(bytes, 'x');
  const auto from = Clock::now();
  if (::write(fd, data.data(), data.size()) < 0 || ::fdatasync(fd) != 0) std::exit(1);
  return ms_since(from);
}

// A whole tap: press, lift, event asked for, appended, folded, next frame drawn.
double tap(Shown& s, std::int64_t& touch_ms, const char* label) {
  ui::Rect r;
  for (const ui::Target& t : s.app->touch().targets())
    if (t.label == label) r = t.rect;
  if (r.w == 0) std::exit(1);
  touch_ms += 1000;
  const auto from = Clock::now();
  s.stage->input().press(r.mid_x(), r.mid_y());
  s.stage->input().release(r.mid_x(), r.mid_y());
  s.stage->show(*s.app, stamp(touch_ms / 1000), touch_ms);
  return ms_since(from);
}

void bench_taps(const std::string& folder, const std::string& assets) {
  Shown s = start(folder + "/taps.journal", assets);
  std::int64_t touch_ms = 10'000;
  tap(s, touch_ms, "Setup");
  const int fd = ::open((folder + "/raw").c_str(), O_CREAT | O_WRONLY | O_APPEND, 0644);
  std::vector<double> taps, raws;
  for (int i = 0; i < 200; ++i) {
    const std::int64_t before = s.app->store().journal().size();
    taps.push_back(tap(s, touch_ms, i % 2 == 0 ? "Fahrenheit" : "Celsius"));
    if (s.app->store().journal().size() != before + 1) std::exit(1);
    raws.push_back(raw_write(fd, 400));
  }
  ::close(fd);
  std::printf("tap to durable and shown: median %.2f ms, p99 %.2f ms\n", at_part(taps, 0.5),
              at_part(taps, 0.99));
  std::printf("raw write + fdatasync of 400 bytes: median %.2f ms, p99 %.2f ms\n",
              at_part(raws, 0.5), at_part(raws, 0.99));
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) return std::fprintf(stderr, "first_frame FOLDER ASSETS\n"), 2;
  std::filesystem::create_directories(argv[1]);
  bench_start(argv[1], argv[2]);
  bench_taps(argv[1], argv[2]);
}
