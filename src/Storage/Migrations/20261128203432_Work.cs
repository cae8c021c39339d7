using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Coldpeel.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Work : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "Cause",
                table: "stock_moves",
                type: "TEXT",
                maxLength: 300,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Job",
                table: "stock_moves",
                type: "TEXT",
                maxLength: 200,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Role",
                table: "stock",
                type: "TEXT",
                maxLength: 200,
                nullable: false,
                defaultValue: "");

            migrationBuilder.CreateTable(
                name: "piece_outcomes",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Key = table.Column<string>(type: "TEXT", maxLength: 320, nullable: false),
                    Cause = table.Column<string>(type: "TEXT", maxLength: 300, nullable: false),
                    Job = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    Process = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    Material = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    Piece = table.Column<string>(type: "TEXT", maxLength: 300, nullable: false),
                    Good = table.Column<int>(type: "INTEGER", nullable: false),
                    Spoilt = table.Column<int>(type: "INTEGER", nullable: false),
                    Missing = table.Column<int>(type: "INTEGER", nullable: false),
                    AtMs = table.Column<long>(type: "INTEGER", nullable: false),
                    Who = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    Why = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_piece_outcomes", x => x.Id);
                });

            migrationBuilder.CreateIndex(
                name: "IX_stock_moves_Cause",
                table: "stock_moves",
                column: "Cause");

            migrationBuilder.CreateIndex(
                name: "IX_stock_moves_Job_Id",
                table: "stock_moves",
                columns: new[] { "Job", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_stock_Count",
                table: "stock",
                column: "Count");

            migrationBuilder.CreateIndex(
                name: "IX_stock_Role",
                table: "stock",
                column: "Role");

            migrationBuilder.CreateIndex(
                name: "IX_piece_outcomes_Cause",
                table: "piece_outcomes",
                column: "Cause");

            migrationBuilder.CreateIndex(
                name: "IX_piece_outcomes_Job",
                table: "piece_outcomes",
                column: "Job");

            migrationBuilder.CreateIndex(
                name: "IX_piece_outcomes_Key",
                table: "piece_outcomes",
                column: "Key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_piece_outcomes_Process_Material_Good_Spoilt",
                table: "piece_outcomes",
                columns: new[] { "Process", "Material", "Good", "Spoilt" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "piece_outcomes");

            migrationBuilder.DropIndex(
                name: "IX_stock_moves_Cause",
                table: "stock_moves");

            migrationBuilder.DropIndex(
                name: "IX_stock_moves_Job_Id",
                table: "stock_moves");

            migrationBuilder.DropIndex(
                name: "IX_stock_Count",
                table: "stock");

            migrationBuilder.DropIndex(
                name: "IX_stock_Role",
                table: "stock");

            migrationBuilder.DropColumn(
                name: "Cause",
                table: "stock_moves");

            migrationBuilder.DropColumn(
                name: "Job",
                table: "stock_moves");

            migrationBuilder.DropColumn(
                name: "Role",
                table: "stock");
        }
    }
}
