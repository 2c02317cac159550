"""The official list of judo's techniques, typed from its published groups.

Source: the Kodokan's list as given by the Wikipedia list of judo techniques and the titles of the Kodokan's
technique videos; group sizes 16, 10, 21, 5, 16 from the Japanese Wikipedia's page on nage-waza, 32
katame-waza with ten hold-downs from sposuru.com, members of the groups from both.
"""

GROUPS = {
    "te-waza": (
        "seoi-nage ippon-seoi-nage seoi-otoshi tai-otoshi kata-guruma sukui-nage obi-otoshi uki-otoshi"
        " sumi-otoshi yama-arashi obi-tori-gaeshi morote-gari kuchiki-taoshi kibisu-gaeshi"
        " uchi-mata-sukashi ko-uchi-gaeshi"
    ),
    "koshi-waza": (
        "uki-goshi o-goshi koshi-guruma tsurikomi-goshi sode-tsurikomi-goshi harai-goshi tsuri-goshi"
        " hane-goshi utsuri-goshi ushiro-goshi"
    ),
    "ashi-waza": (
        "de-ashi-harai hiza-guruma sasae-tsurikomi-ashi o-soto-gari o-uchi-gari ko-soto-gari ko-uchi-gari"
        " okuri-ashi-harai uchi-mata ko-soto-gake ashi-guruma harai-tsurikomi-ashi o-guruma o-soto-guruma"
        " o-soto-otoshi tsubame-gaeshi o-soto-gaeshi o-uchi-gaeshi hane-goshi-gaeshi harai-goshi-gaeshi"
        " uchi-mata-gaeshi"
    ),
    "ma-sutemi-waza": "tomoe-nage sumi-gaeshi hikikomi-gaeshi tawara-gaeshi ura-nage",
    "yoko-sutemi-waza": (
        "yoko-otoshi tani-otoshi hane-makikomi soto-makikomi uchi-makikomi uki-waza yoko-wakare yoko-guruma"
        " yoko-gake daki-wakare o-soto-makikomi uchi-mata-makikomi harai-makikomi ko-uchi-makikomi"
        " kani-basami kawazu-gake"
    ),
    "osaekomi-waza": (
        "kesa-gatame kuzure-kesa-gatame ushiro-kesa-gatame kata-gatame kami-shiho-gatame"
        " kuzure-kami-shiho-gatame yoko-shiho-gatame tate-shiho-gatame uki-gatame ura-gatame"
    ),
    "shime-waza": (
        "nami-juji-jime gyaku-juji-jime kata-juji-jime hadaka-jime okuri-eri-jime kataha-jime katate-jime"
        " ryote-jime sode-guruma-jime tsukkomi-jime sankaku-jime do-jime"
    ),
    "kansetsu-waza": (
        "ude-garami ude-hishigi-juji-gatame ude-hishigi-ude-gatame ude-hishigi-hiza-gatame"
        " ude-hishigi-waki-gatame ude-hishigi-hara-gatame ude-hishigi-ashi-gatame ude-hishigi-te-gatame"
        " ude-hishigi-sankaku-gatame ashi-garami"
    ),
}
THROWS = ("te-waza", "koshi-waza", "ashi-waza", "ma-sutemi-waza", "yoko-sutemi-waza")
GROUNDWORK = ("osaekomi-waza", "shime-waza", "kansetsu-waza")
