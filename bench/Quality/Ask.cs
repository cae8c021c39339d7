using Coldpeel.Bench;

namespace Coldpeel.Quality;

/// <summary>How long each instance is searched, and how often.</summary>
internal sealed record Ask(double Seconds, int Seeds)
{
    public string Words => Report.Say($"{Seconds:0.#} s by the clock, {Seeds} {(Seeds == 1 ? "seed" : "seeds")}");
}
