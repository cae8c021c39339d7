using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Day;

/// <summary>What decides who goes first when several blocks could start: all in seconds of earlier start that they are worth.</summary>
internal sealed class DispatchKeys
{
    private const int Kinds = 6;

    private DispatchKeys(double[] kind, double[] sheet, double[] order, double[] placement)
    {
        Kind = kind;
        Sheet = sheet;
        Order = order;
        Placement = placement;
    }

    public DispatchKeys(DayModel model)
        : this(
            new double[Kinds],
            new double[model.Problem.Sheets.Length],
            new double[model.Problem.Orders.Length],
            new double[model.Problem.Placements.Length]
        ) { }

    /// <summary>Added to the start of every block of that kind: negative goes earlier.</summary>
    public double[] Kind { get; }

    public double[] Sheet { get; }
    public double[] Order { get; }
    public double[] Placement { get; }

    /// <summary>How much of an order's due time counts.</summary>
    public double Due { get; set; }

    /// <summary>How much a second of set-point change counts against a press.</summary>
    public double SetUp { get; set; }

    /// <summary>Against taking a press that others need more, in seconds for each part of all runs that only it can take.</summary>
    public double Scarce { get; set; }

    /// <summary>Against leaving a hand a gap too short for anything, in seconds of delay for each second of gap.</summary>
    public double Fit { get; set; }

    public DispatchKeys Copy() =>
        new([.. Kind], [.. Sheet], [.. Order], [.. Placement])
        {
            Due = Due,
            SetUp = SetUp,
            Scarce = Scarce,
            Fit = Fit,
        };

    /// <summary>Changes a little, at random: a weight, or one to three keys of sheets, orders or placements.</summary>
    public void Nudge(Rng rng, double reach)
    {
        switch (rng.Below(10))
        {
            case 0:
                Kind[rng.Below(Kinds)] += Spread(rng, 60);
                break;
            case 1:
                Due = Math.Max(0, Due + Spread(rng, Math.Max(0.02, Due * 0.3)));
                break;
            case 2:
                SetUp = Math.Max(0, SetUp + Spread(rng, 0.4));
                break;
            case 3:
                Scarce = Math.Max(0, Scarce + Spread(rng, 30));
                Fit = Math.Max(0, Fit + Spread(rng, 1));
                break;
            case 4 or 5 when Sheet.Length > 0:
                Sheet[rng.Below(Sheet.Length)] += Spread(rng, reach);
                break;
            case 6 or 7 when Order.Length > 0:
                Order[rng.Below(Order.Length)] += Spread(rng, reach);
                break;
            default:
                for (var n = rng.Below(3); n >= 0 && Placement.Length > 0; n--)
                {
                    Placement[rng.Below(Placement.Length)] += Spread(rng, reach / 2);
                }

                break;
        }
    }

    // A sum of three even draws: mostly small, now and then as far as three times the reach.
    private static double Spread(Rng rng, double reach) =>
        (rng.Between(-1, 1) + rng.Between(-1, 1) + rng.Between(-1, 1)) * reach;
}
