package file
import ("testing";"heartside/model";"heartside/layout/geom";"math";"time";"fmt")
func TestZZ(t *testing.T){
 p:=model.NewProject()
 for i:=0;i<200;i++{ b:=model.NewBoard(model.NextBoardID(p),"teak",3000,300,30)
  for f:=range b.Faces{ b.Faces[f].Known=true; for z:=0;z<2;z++{ var g geom.Polygon; for k:=0;k<500;k++{ a:=float64(k)/500*2*math.Pi; r:=1+0.02*math.Sin(40*a); g=append(g,geom.Pt(1500+1400*r*math.Cos(a),150+140*r*math.Sin(a)))}; b.Faces[f].Zones=append(b.Faces[f].Zones,model.Zone{Kind:model.Sap,Polygon:g})}}
  p.Boards=append(p.Boards,b)}
 s:=time.Now(); d:=Marshal(p); fmt.Println("marshal",time.Since(s),len(d)>>20)
 s=time.Now(); q,_,err:=Read(d,"x"); fmt.Println("read",time.Since(s),err)
 s=time.Now(); fmt.Println(model.Validate(q),time.Since(s))
}
