#include <doctest/doctest.h>

#include "tests/support/farm_states.h"

namespace register_screen_test {

using test::Evening;
using State = ui::BundleSeen::State;

namespace {

void open_register(Evening& e) {
  test::season(e);
  e.tap("Register");
}

void open_entry(Evening& e, const std::string& label) {
  open_register(e);
  while (!e.has(label)) e.tap("NEXT");
  e.tap(label);
}

void open_writing(Evening& e) {
  test::season(e);
  e.sticks = {{"CAMERA", "/media/camera", true, {}},
              {"KEEPER STICK", "/media/keeper", false, 12'300'000'000ULL}};
  e.tap("Register");
  e.tap("Write the log");
}

}  // namespace

TEST_CASE("the register opens on the last day that has entries, newest first") {
  Evening e;
  open_register(e);
  CHECK(e.sees("Fri 14 Aug 2026, 5 days ago, 71 entries"));
  CHECK(e.sees("A1: note: queen seen, strong"));
  CHECK_FALSE(e.target("Day after").enabled);
}

TEST_CASE("an entry from a clock in the future does not hide today's") {
  Evening e;
  open_register(e);
  engine::NoteWritten note;
  note.colony = e.colony(1);
  note.text = "eggs seen";
  e.write(note);
  e.jump(std::chrono::hours{24 * 400});
  e.write(note);
  e.jump(-std::chrono::hours{24 * 400});
  e.tap("Register");
  CHECK(e.sees("Wed 19 Aug 2026, today, 1 entry"));
  CHECK(e.target("Day after").enabled);
}

TEST_CASE("an entry is struck with a reason, by holding, and stays readable") {
  Evening e;
  open_entry(e, "A4: 2 g dihydrate set");
  CHECK_FALSE(e.target("Strike").enabled);
  e.tap("wrong colony");
  CHECK_THROWS(e.tap("Strike"));
  e.hold("Strike");
  CHECK(e.refused.empty());
  CHECK(e.sees("Struck on Wed 19 Aug 2026: wrong colony"));
  e.tap("Back");
  CHECK(e.sees("struck entry"));
  e.tap("Day before");
  while (!e.has("A4: 2 g dihydrate set")) e.tap("NEXT");
  CHECK(e.sees("STRUCK"));
}

TEST_CASE("what stood on a struck entry is said to have fallen") {
  Evening e;
  open_entry(e, "A4: 2 g dihydrate set");
  e.tap("did not happen");
  e.hold("Strike");
  e.tap("Back"), e.tap("Day before");
  while (!e.has("A4: vaporizer lifted")) e.tap("NEXT");
  CHECK(e.sees("FALLEN"));
  e.tap("A4: vaporizer lifted");
  CHECK(e.sees("It no longer counts"));
  CHECK_FALSE(e.has("Day before"));
}

TEST_CASE("a read-only stick is said to be one and cannot be chosen for writing") {
  Evening e;
  open_writing(e);
  CHECK(e.sees("READ-ONLY"));
  CHECK(e.sees("this stick is read-only"));
  CHECK_FALSE(e.target("Write now").enabled);
}

TEST_CASE("the log of the day goes to the stick that was tapped") {
  Evening e;
  open_writing(e);
  CHECK(e.sees("12.3 GB free"));
  e.tap("KEEPER STICK");
  e.tap("Write now");
  REQUIRE(e.outside.size() == 1);
  const auto* asked = std::get_if<ui::WriteBundle>(&e.outside[0]);
  REQUIRE(asked != nullptr);
  CHECK(asked->folder == "/media/keeper");
  REQUIRE(asked->day);
  CHECK(engine::iso_date(*asked->day) == "2026-08-14");
}

TEST_CASE("all days, then making the stick safe to pull") {
  Evening e;
  open_writing(e);
  e.tap("KEEPER STICK"), e.tap("All days"), e.tap("Write now"), e.tap("Make it safe to pull");
  REQUIRE(e.outside.size() == 2);
  CHECK_FALSE(std::get<ui::WriteBundle>(e.outside[0]).day);
  CHECK(std::get<ui::ReleaseStick>(e.outside[1]).path == "/media/keeper");
}

TEST_CASE("when the stick is pulled, nothing is written elsewhere in its place") {
  Evening e;
  open_writing(e);
  e.log_folder = "/home/keeper/logs";
  e.tap("KEEPER STICK");
  e.sticks.clear();
  e.redraw();
  CHECK(e.sees("The stick is out"));
  CHECK(e.sees("Put it back or choose another place."));
  CHECK_FALSE(e.target("Write now").enabled);
  e.sticks = {{"OTHER", "/media/other", false, {}}, {"KEEPER STICK", "/media/keeper", false, {}}};
  e.redraw();
  e.tap("Write now");
  REQUIRE(e.outside.size() == 1);
  CHECK(std::get<ui::WriteBundle>(e.outside[0]).folder == "/media/keeper");
  CHECK(std::get<ui::WriteBundle>(e.outside[0]).stick);
}

TEST_CASE("the stick first shown is not swapped for the tablet either, though nobody tapped it") {
  Evening e;
  open_writing(e);
  e.log_folder = "/home/keeper/logs";
  e.sticks.clear();
  e.redraw();
  CHECK_FALSE(e.target("Write now").enabled);
  e.tap("On this tablet"), e.tap("Write now");
  REQUIRE(e.outside.size() == 1);
  CHECK(std::get<ui::WriteBundle>(e.outside[0]).folder == "/home/keeper/logs");
  CHECK_FALSE(std::get<ui::WriteBundle>(e.outside[0]).stick);
}

TEST_CASE("only a stick is said to be safe to pull") {
  Evening e;
  open_register(e);
  e.log_folder = "/home/keeper/logs";
  e.tap("Write the log");
  e.bundle = {State::Written, "Written, read back and good: duskwalk-2026-08-14.", 1};
  e.redraw();
  CHECK(e.sees("Written on this tablet"));
  CHECK_FALSE(e.sees("safe to pull"));
  e.tap("Folder by hand"), e.tap("m"), e.tap("OK");
  CHECK(e.sees("Written into the folder"));
  CHECK_FALSE(e.sees("safe to pull"));
}

TEST_CASE("a stick that is still in use is not to be pulled, though the log is on it") {
  Evening e;
  open_writing(e);
  e.tap("KEEPER STICK");
  e.bundle = {State::Held, "Another program still uses it.", 1, "/media/keeper"};
  e.redraw();
  CHECK(e.sees("Do not pull the stick yet"));
  CHECK_FALSE(e.sees("Not written"));
}

TEST_CASE("what was written is said only beside its place, and not after new entries") {
  Evening e;
  open_writing(e);
  e.tap("KEEPER STICK");
  e.bundle = {State::Safe, "Read back and good.", 1, "/media/keeper", e.farm.log.size()};
  e.redraw();
  CHECK(e.sees("Written: safe to pull"));
  e.tap("CAMERA");
  CHECK_FALSE(e.sees("Written"));
  e.tap("KEEPER STICK");
  CHECK(e.sees("Written: safe to pull"));
  e.write(engine::NoteWritten{{}, e.colony(1), "eggs seen"});
  e.redraw();
  CHECK_FALSE(e.sees("Written"));
}

TEST_CASE("a folder written by hand is written into") {
  Evening e;
  open_register(e);
  e.tap("Write the log");
  CHECK(e.sees("no stick is in, no folder chosen"));
  e.tap("Folder by hand"), e.tap("m"), e.tap("OK"), e.tap("Write now");
  REQUIRE(e.outside.size() == 1);
  CHECK(std::get<ui::WriteBundle>(e.outside[0]).folder == "/m");
}

TEST_CASE("progress, success and failure are each said in words") {
  Evening e;
  open_writing(e);
  e.tap("KEEPER STICK");
  e.bundle = {State::Writing, "12 of 71 entries", 0.2F};
  e.redraw();
  CHECK(e.sees("Leave the stick in. 12 of 71 entries"));
  CHECK_FALSE(e.target("Write now").enabled);
  e.bundle = {State::Safe, "71 entries, read back and checked.", 1};
  e.redraw();
  CHECK(e.sees("safe to pull"));
  e.bundle = {State::Failed, "The stick was pulled too early: put it in and write again.", 0};
  e.redraw();
  CHECK(e.sees("Not written"));
  CHECK(e.sees("put it in and write again"));
  CHECK(e.sees("Your entries are safe on this tablet."));
  CHECK(e.target("Write now").enabled);
}

}  // namespace register_screen_test
