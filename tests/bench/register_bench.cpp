// One year's register of 2,000 colonies with eight treatments each, as CSV, HTML and PDF, beside a
// plain write of as many bytes as the PDF has.
#include <fmt/format.h>

#include <chrono>
#include <cstdio>

#include "storage/disk/whole_file.h"
#include "storage/register/register_files.h"

namespace {

constexpr int kColonies = 2000, kYards = 60, kTreatments = 8;

engine::RegisterRow row_of(int colony, int treatment) {
  engine::RegisterRow row;
  const int yard = colony % kYards;
  row.entry.seq = colony * kTreatments + treatment;
  row.date = engine::Date{std::chrono::sys_days{std::chrono::year{2026} / 3 / 1} +
                          std::chrono::days{30 * treatment + yard % 7}};
  row.yard.bytes[15] = static_cast<std::uint8_t>(yard);
  row.yard_name = fmt::format("Yard {}", yard);
  row.colony.bytes[14] = static_cast<std::uint8_t>(colony / 256);
  row.colony.bytes[15] = static_cast<std::uint8_t>(colony % 256);
  row.colony_name = fmt::format("H{}", colony);
  row.walk = engine::WalkId{};
  row.walk->bytes[14] = static_cast<std::uint8_t>(yard);
  row.walk->bytes[15] = static_cast<std::uint8_t>(treatment);
  row.product = "Oxalic acid dihydrate";
  row.lot_code = fmt::format("L{}", treatment);
  row.dose = engine::Mass{1000 + 1000 * (colony % 2)};
  row.brood_boxes = 1 + colony % 2;
  row.supers_on = false;
  row.withdrawal_days = 0;
  row.dwell = engine::Elapsed{engine::Ms{85'000 + 137 * (colony % 90)}};
  row.seal = engine::Elapsed{engine::Ms{590'000 + 713 * (colony % 50)}};
  return row;
}

template <class Work>
double seconds(Work work) {
  const auto begin = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

}  // namespace

int main() {
  std::vector<engine::RegisterRow> rows;
  for (int treatment = 0; treatment < kTreatments; ++treatment)
    for (int colony = 0; colony < kColonies; ++colony) rows.push_back(row_of(colony, treatment));
  const storage::RegisterHead head;
  std::string csv, html, pdf;
  const double csv_s = seconds([&] { csv = storage::register_csv(rows, {}); });
  const double html_s = seconds([&] { html = storage::register_html(rows, head); });
  const double pdf_s = seconds([&] { pdf = storage::register_pdf(rows, head); });
  const std::string file = fmt::format("{}/register_bench.pdf", P_tmpdir);
  bool saved = false;
  const double write_s = seconds([&] { saved = storage::write_whole_file(file, pdf).ok(); });
  std::remove(file.c_str());
  fmt::print(
      "{} rows: csv {:.2f} s ({:.1f} MB), html {:.2f} s ({:.1f} MB), pdf {:.2f} s ({:.1f} MB)\n",
      rows.size(), csv_s, static_cast<double>(csv.size()) / 1e6, html_s,
      static_cast<double>(html.size()) / 1e6, pdf_s, static_cast<double>(pdf.size()) / 1e6);
  fmt::print("beside it: writing the PDF's bytes and flushing them {:.3f} s\n", write_s);
  return saved ? 0 : 1;
}
