using Coldpeel.Bench;

namespace Coldpeel.Quality;

/// <summary>How long each instance is searched, and how often.</summary>
/// <param name="Seconds">Seconds by the clock; or, on a machine that others use too, as many as the processor time would take on two free cores.</param>
/// <param name="Seeds">How many runs.</param>
/// <param name="ByProcessor">Whether the processor's time counts.</param>
internal sealed record Ask(double Seconds, int Seeds, bool ByProcessor = false)
{
    private const int Cores = 2;

    public string Words =>
        Report.Say(
            $"{Seconds:0.#} s {(ByProcessor ? $"of two cores, {Seconds * Cores:0.#} s of processor" : "by the clock")}, {Seeds} {(Seeds == 1 ? "seed" : "seeds")}"
        );

    /// <summary>Share of the time that has passed.</summary>
    public double Share(Meter meter)
    {
        var spent = meter.Read();
        return (ByProcessor ? spent.CpuS / Cores : spent.WallS) / Seconds;
    }

    /// <summary>Runs a search that ends when its time is over.</summary>
    public T Run<T>(Func<Meter, CancellationToken, T> search)
    {
        var meter = new Meter();
        if (!ByProcessor)
        {
            using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(Seconds));
            return search(meter, limit.Token);
        }

        using var over = new CancellationTokenSource();
        using var watch = new Timer(
            _ =>
            {
                if (Share(meter) >= 1)
                {
                    over.Cancel();
                }
            },
            null,
            100,
            100
        );
        return search(meter, over.Token);
    }
}
