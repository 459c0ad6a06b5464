// The list was written by hand for this program: everyday English nouns, colours, numbers and a few
// verbs and adjectives, of three to seven small letters. A script then dropped what could be taken
// for another one: of two words that begin with the same four letters, or that one wrong, missing,
// added or exchanged letter makes alike, the later one went. tests/storage/trust/pairing_words_test
// asks all of that of the list as it stands. Which word stands where is what eight words mean, so
// the list is never changed.
#include "storage/trust/word_list.h"

namespace storage {
namespace {

constexpr std::string_view kWords =
    "able about above acorn across action actor adult after again agree ahead alarm album alder "
    "alive almond alone aloud alpine always amber amount anchor angle animal anvil apple apron "
    "arch arena argue armor around arrow artist ashes aspen attic august aunt autumn avenue avoid "
    "awake award baby bacon badge bakery ballad bamboo banana band banjo banner barley barn "
    "barrel basil basket bath beach beam beard beaver become before began behind being belief "
    "bell belong berry beside better beyond bike birch bird black blaze blend bloom blue boat "
    "bobbin bold bone bonnet book border borrow bottle bounce bowl branch brass brave bread "
    "breeze brick bridge brief bright bronze brown brush bubble bucket build bumper bundle bunker "
    "bushel button buzzer cabin cactus cake calm camel camp canal candle canoe canvas carbon "
    "cargo carpet carrot cart carve castle cedar cellar cement center cereal chain chalk chapel "
    "charm cheese cherry chess chief chime choice chorus cider circle city civil clay clean "
    "clever cliff climb clock cloth clown club coach coast cobalt cobra cocoa coffee coin color "
    "column comb comet common copper coral cork corner cosmos cotton couple cousin cover coyote "
    "cradle crane crater crayon cream creek crisp crop cruise crumb cube cuckoo cup curl cushion "
    "custom cycle cymbal daily dance daring dawn deal decade decent deck deep delta denim dense "
    "depth desert detail diamond diary diesel dinner direct dish distant dive doctor dolphin "
    "donkey door double dozen draft dragon drama drawer dress drill drink drum dust eager eagle "
    "early earth easel east echo edge editor effort eight elbow eleven elm emerald empty energy "
    "enjoy enough entire equal errand estate event every exact example expert extra eye fabric "
    "face falcon fall family famous fancy farm father faucet fence fern fever fiber fiddle field "
    "fifty figure film filter final finch find finger finish fire first flag flame flannel flash "
    "fleet float flood flour flower fluid flute foam focus fog foil folder follow forest formal "
    "fort fossil freckle free fresh friend fringe front frozen fruit fudge funnel furnace future "
    "gadget galaxy gallon game garden garlic garnet gauge genius gentle giant giraffe girl "
    "glacier glad glass glide globe glory goblet golf gondola good goose gopher grain grand grape "
    "gravel great green grid group grove grow guard guess guitar gully habit hair half hamlet "
    "hammer hamster happy harbor hard harness harvest hatch haven hawk hazel healthy heart heavy "
    "hello helmet helper hemlock herb heron hidden high hiker hill hinge hobby hockey holiday "
    "honest hope horizon horn horse hotel hour human humble humor hundred hungry hurdle husky hut "
    "hybrid iceberg icicle idea igloo image impact income index indigo indoor infant ink inland "
    "insect inside ivory ivy jacket jaguar jam january jasmine jelly jersey jewel jigsaw joke "
    "journey joy juice july jumbo june jungle junior kayak keen keeper kennel kettle key kidney "
    "kiosk kitchen kite kitten kiwi knee knife knight knit knob koala label ladder lady lagoon "
    "lamb lantern large laser laugh laundry laurel lava leader leaf league learn leather left "
    "legend lemon length lentil leopard lesson level liberty library lichen lilac lily lime limit "
    "linen lion liquid list little lively lizard load lobster local locket lodge logic lonely "
    "long loop lotus lucky lumber lunar lunch lynx machine magic magnet maiden mail major mallet "
    "mammal mango mantle maple marble margin marine market maroon marsh marvel mask mason master "
    "maxim meadow measure medal medium mellow melody member memory menu merit meteor method mild "
    "mimic minor mint minute mirror mixer model moment monday money month moon morning mortar "
    "mosaic moss mother motor mouse move muffin mule muscle museum music musket mustard mutual "
    "myth napkin nation nature navy near nectar needle nephew nest nice nickel noise noodle north "
    "notch novel nugget nurse nutmeg nylon oak oasis object oboe ocean october office often okra "
    "omelet once onion onyx open opera orange orbit orchard organ origin osprey ostrich otter "
    "oval owner oxygen oyster ozone paddle page paint palace panda panel panther paper parade "
    "parcel park parsley partner pasta patio pattern pause peacock peanut pebble pecan pelican "
    "pencil penguin penny people pepper perch perfect petal phone photo piano pickle picnic "
    "picture piece pigeon pillow pilot pine pioneer pirate pitcher pizza plaid planet plastic "
    "plate player plow plum poem polar pollen pond poppy potato pottery powder prairie present "
    "pretty price prism private problem promise proper proud pudding pulley pulse puma pumpkin "
    "pupil puppet purple puzzle pyramid quail quarry quest quick quiet quill quince quiver quiz "
    "quote rabbit raccoon radar radio raisin rally random rapid razor ready recipe record reef "
    "region relax remedy remote reply rescue reserve return reward rhyme ribbon ride ripple river "
    "robin robot rodeo roof rooster rose route rubber ruby rudder ruler rural safari saffron "
    "salad salmon salt salute sample sandal satin saturn sauce sausage savanna scale scarf scene "
    "school science scout scroll sea second seed select senior sequel sesame seven shadow shallow "
    "shampoo shape shark sheep shelf shield shift shine ship shoe shovel shower shrimp shrub "
    "shuttle signal silence silk silver siren sister sketch skill skin skirt sky sleeve slice "
    "slipper slope small smart smile smoke smooth snack snail snow soap soccer social sofa "
    "soldier solid soul source south space sparrow sphere spider spinach spiral splash sponge "
    "spoon sport spring spruce square stable staff stage stamp star station steam steel stereo "
    "stick stone stool storm straw street strong studio sturdy style suburb subway sugar suit "
    "summer sun supper surf swan sweater sweet swim sword symbol syrup system tackle tailor "
    "talent tandem tank target tavern teacher teapot temple tennis textile theater theme thimble "
    "third thistle thread throne thumb thunder ticket tidal tiger timber tinsel tiny tiptoe today "
    "tomato tongue tonight topaz torch tornado total toucan towel town tractor trade trail "
    "trapeze treaty trellis tribe trolley trophy trout truck true trumpet trust truth tulip "
    "tundra turban turkey turn turtle tutor twelve twenty twig twist type uncle under unique "
    "upset uptown urchin useful usual vacuum valley valve vanilla vapor vase vault velvet verse "
    "vessel veteran video view village vintage violet visit visor vista vital vivid voice volcano "
    "volume voyage wafer wagon waiter walnut walrus wave wealth week welcome whale wheat wheel "
    "whisper white wicker window winter wisdom wise wonder wool world wren wrist yacht yoga young "
    "zebra zenith zero zinc zipper zoo ";

constexpr std::array<std::string_view, kPairingWords> cut_list() {
  std::array<std::string_view, kPairingWords> list{};
  std::string_view rest = kWords;
  for (std::string_view& word : list) {
    const std::size_t end = rest.find(' ');
    word = rest.substr(0, end);
    rest.remove_prefix(end + 1);
  }
  return list;
}

constexpr auto kList = cut_list();

}  // namespace

const std::array<std::string_view, kPairingWords>& pairing_word_list() { return kList; }

}  // namespace storage
