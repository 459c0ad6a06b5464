#include "storage/store/event_json.h"

#include <fmt/format.h>

#include "storage/text/json_fields.h"

namespace storage {
namespace {

using engine::Code;
using engine::Status;
using nlohmann::json;

// What RFC 3339 can write: the years 0000 to 9999, offsets below a day. Beyond it dates overflow.
constexpr std::int64_t kFirstMs = -62'167'219'200'000;
constexpr std::int64_t kLastMs = 253'402'300'799'999;
constexpr int kMostZone = 23 * 60 + 59;
constexpr std::int64_t kMostSinceBoot = std::chrono::milliseconds{json_fields::kMostLength}.count();

std::string body_text(const json& body) {
  return body.dump(-1, ' ', false, json::error_handler_t::replace);
}

Status damaged(const Record& r, const std::string& what) {
  return {Code::Damaged, fmt::format("entry {} of device {}: {}", r.seq, r.device, what)};
}

std::string wrong_envelope(const Record& r) {
  if (!engine::uuid_from_text(r.device)) return "the device is no id";
  if (r.seq < 1) return "its number must be 1 or more";
  if (r.at_utc_ms < kFirstMs || r.at_utc_ms > kLastMs) return "its time is outside of years 0-9999";
  if (r.zone_offset_min < -kMostZone || r.zone_offset_min > kMostZone)
    return "its offset from UTC is a day or more";
  if (r.since_boot_ms < 0 || r.since_boot_ms > kMostSinceBoot)
    return "its time since boot is below zero or above a century";
  return {};
}

std::string read_body(const json& from, engine::Body& to) {
  return std::visit(
      [&](auto& body) {
        using Kind = std::remove_cvref_t<decltype(body)>;
        json_fields::Reader reader(from, Kind::kKind);
        Kind::fields(body, reader);
        return reader.wrong();
      },
      to);
}

}  // namespace

Record to_record(const engine::Event& e) {
  Record r;
  r.device = engine::text(e.ref.device);
  r.seq = e.ref.seq;
  r.at_utc_ms = e.stamp.at.time_since_epoch().count();
  r.zone_offset_min = static_cast<int>(e.stamp.zone.count());
  r.boot_id = e.stamp.boot.str();
  r.since_boot_ms = e.stamp.since_boot.count();
  r.kind = engine::kind(e.body);
  r.body = body_text(std::visit([](const auto& body) { return json_fields::put(body); }, e.body));
  return r;
}

engine::Result<engine::Event> to_event(const Record& r) {
  if (const std::string wrong = wrong_envelope(r); !wrong.empty()) return damaged(r, wrong);
  auto body = engine::body_of_kind(r.kind);
  if (!body)
    return Status(Code::TooNew,
                  fmt::format("entry {} of device {}: \"{}\" is no kind of entry that "
                              "this version knows; use the version that wrote it",
                              r.seq, r.device, r.kind));
  const json parsed = json::parse(r.body, nullptr, false);
  if (!parsed.is_object()) return damaged(r, r.kind + ": the body is no JSON object");
  if (const std::string wrong = read_body(parsed, *body); !wrong.empty()) return damaged(r, wrong);
  engine::Event e;
  e.ref = {engine::DeviceId{*engine::uuid_from_text(r.device)}, r.seq};
  e.stamp.at = engine::Utc{engine::Ms{r.at_utc_ms}};
  e.stamp.zone = std::chrono::minutes{r.zone_offset_min};
  e.stamp.boot = r.boot_id;
  e.stamp.since_boot = engine::Ms{r.since_boot_ms};
  e.body = std::move(*body);
  return e;
}

}  // namespace storage
